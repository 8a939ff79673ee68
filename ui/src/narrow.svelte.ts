/** Whether the page is as narrow as a phone; what is long is folded there. */
const query = matchMedia("(max-width: 640px)");
let narrow = $state(query.matches);
query.addEventListener("change", () => (narrow = query.matches));

export function isNarrow(): boolean {
  return narrow;
}

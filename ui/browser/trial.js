// A newcomer's way from an empty folder to a shaped, priced and printed house: a hand that knows only the words that stand at
// what it touches, and counts what it does.
import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import { join } from "node:path";

/** More words than this at a control are no label but something to read. */
const LABEL_WORDS = 8;

/** A hand on a page. Each step is a numbered picture in the folder that `TRIAL_PICTURES` names, where it names one. */
export function hand(shown) {
  const folder = process.env.TRIAL_PICTURES;
  if (folder) mkdirSync(folder, { recursive: true });
  let [actions, pictures] = [0, 0];

  /** One control, seen, and so named that its words alone say what it does. */
  const found = async (controls, words) => {
    assert.equal(await controls.count(), 1, `one thing is called “${words}”`);
    assert.ok(await controls.isVisible(), `“${words}” is seen`);
    assert.ok(words.split(" ").length <= LABEL_WORDS, `“${words}” is a label`);
    actions += 1;
    return controls;
  };
  const settled = async () => {
    await shown.waitForTimeout(60);
    await shown.waitForFunction(() => document.querySelector("#content")?.ariaBusy === "false");
  };
  return {
    press: async (words, within = shown, role = "button") => {
      await (await found(within.getByRole(role, { name: words, exact: true }), words)).click();
      await settled();
    },
    unfold: async (words, within) => {
      await (await found(within.getByText(words, { exact: true }), words)).click();
    },
    write: async (words, value, within = shown) => {
      const field = await found(within.getByLabel(words), words);
      await field.fill(value);
      await field.press("Tab");
      await settled();
    },
    choose: async (words, value, within = shown) => {
      await (await found(within.getByLabel(words), words)).selectOption(value);
      await settled();
    },
    /** Pulls by so many pixels what a drawing calls by these words. */
    pull: async (words, [right, down]) => {
      const held = shown.locator(`[aria-label^="${words}."]`).first();
      await held.scrollIntoViewIfNeeded();
      const { x, y, width, height } = await held.boundingBox();
      const from = [x + width / 2, y + height / 2];
      await shown.mouse.move(...from);
      await shown.mouse.down();
      for (let step = 1; step <= 4; step += 1) await shown.mouse.move(from[0] + (right * step) / 4, from[1] + (down * step) / 4);
      await shown.mouse.up();
      actions += 1;
      await settled();
    },
    picture: async (name) => {
      pictures += 1;
      const [width, number] = [shown.viewportSize().width, String(pictures).padStart(2, "0")];
      if (folder) await shown.screenshot({ path: join(folder, `${width}-${number}-${name}.png`), fullPage: true });
    },
    actions: () => actions,
  };
}

/** How what is taken is counted, and how it is then sold. */
const SOLD = [[/kg/, "bale"], [/ t$/, "tonne"], [/m³/, "m3"], [/m²/, "m2"], [/ m$/, "m"], [/^\D*\d+$/, "piece"]];

/** The whole way; gives how many actions it took. */
export async function trial(shown) {
  const { press, unfold, write, choose, pull, picture, actions } = hand(shown);
  const next = async (leaf) => {
    await press(leaf, shown.locator(".next"), "link");
    await shown.getByRole("heading", { level: 1, name: leaf }).waitFor();
    await shown.waitForTimeout(leaf === "Roof" ? 1500 : 300);
    await picture(leaf.toLowerCase());
  };
  await shown.getByText("What it takes").waitFor();
  await picture("start");
  await press("Round or oval");
  await picture("first-shape");
  await write("Length inside", "5.2");
  await write("Width inside", "4");
  await write("Its name", "Hazel Corner");
  await picture("sized");
  await press("Build this one");
  await shown.waitForSelector("[data-handle]");
  await shown.waitForTimeout(300);
  await picture("walls");
  await pull("point east", [12, 0]);
  await pull("middle of window", [-8, 6]);
  await write("Thickness at the foot", "48 cm");
  await picture("shaped");
  for (const leaf of ["Earth", "Skin", "Roof", "Stuff"]) await next(leaf);
  await choose("Currency", "EUR");
  const lines = await shown.locator("[data-order]").evaluateAll((all) => all.map((one) => one.dataset.order));
  for (const line of lines) {
    const order = shown.locator(`[data-order="${line}"]`);
    if ((await order.getByText("Open: price it", { exact: true }).count()) === 0) continue;
    await unfold("Open: price it", order);
    await order.getByLabel("Sold by").waitFor();
    const ways = (await order.getByLabel("Sold by").locator("option").allTextContents()).slice(1);
    const takes = await order.locator('[data-word="takes"]').innerText();
    // It is sold as it is counted here, or by the first way that there is.
    const way = SOLD.find(([counted, word]) => counted.test(takes) && ways.includes(word))?.[1] ?? ways[0];
    await choose("Sold by", way, order);
    await write("Price of one", "12.50", order);
    const holds = order.getByLabel(`One ${way} holds`);
    // What stands in the empty field shows how it is written.
    if (await holds.count()) await write(`One ${way} holds`, await holds.getAttribute("placeholder"), order);
    await press("Write its price", order);
    await order.getByText("Its price and how it comes").waitFor();
  }
  await picture("priced");
  const sum = await shown.getByRole("region", { name: "What it costs" }).innerText();
  assert.match(sum, /\d EUR/);
  assert.equal(await shown.getByText("Open: price it", { exact: true }).count(), 0, "every line has a price");
  await next("Book");
  await press("Make the book");
  await shown.getByRole("link", { name: "Open the book to print it" }).waitFor({ timeout: 180000 });
  await picture("printed");
  const book = await fetch(new URL("/book.pdf", shown.url()));
  assert.equal(book.headers.get("content-type"), "application/pdf");
  return actions();
}

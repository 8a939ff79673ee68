// Says how each test ended, and at the end the line that the commands of the repository count by.
export default async function* (events) {
  let [passed, failed] = [0, 0];
  for await (const { type, data } of events) {
    if (type === "test:pass" && data.nesting === 0) {
      passed += 1;
      yield `ok   ${data.name} (${Math.round(data.details.duration_ms)} ms)\n`;
    } else if (type === "test:fail" && data.nesting === 0) {
      failed += 1;
      const { cause } = data.details.error;
      yield `FAIL ${data.name}\n${cause?.stack ?? data.details.error.message}\n`;
    } else if (type === "test:stderr") {
      yield data.message;
    }
  }
  yield `test result: ${failed ? "FAILED" : "ok"}. ${passed} passed; ${failed} failed\n`;
}

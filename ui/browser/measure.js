// How fast the page is: median and 95th percentile, the program built for speed, browser and program on the same cores.
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { FLAT, SPACE, browser, page, served } from "./harness.js";

const DRAGS = 120;

function told(name, values, limit, unit = "ms") {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (share) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
  const is = at(0.95) <= limit ? "met" : "NOT MET";
  console.log(`${at(0.5).toFixed(1).padStart(9)} ${unit} median, ${at(0.95).toFixed(1)} ${unit} p95  ${name} (at most ${limit}: ${is})`);
}

/** Drags a handle in small steps; each wait is from the pointer's own time to the frame after the change. */
async function drags(shown, count) {
  await shown.waitForSelector("[data-handle^='wall.line']");
  const box = await shown.locator("[data-handle^='wall.line']").first().boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await shown.evaluate(() => {
    globalThis.waits = [];
    globalThis.bytes = [];
    const fetched = globalThis.fetch;
    globalThis.fetch = async (...asked) => {
      const response = await fetched(...asked);
      if (String(asked[0]) === "/look") response.clone().text().then((text) => globalThis.bytes.push(text.length));
      return response;
    };
    let since = 0;
    addEventListener("onpointerrawupdate" in globalThis ? "pointerrawupdate" : "pointermove", (event) => (since = event.timeStamp), true);
    new MutationObserver(() => {
      if (!since) return;
      const begun = since;
      since = 0;
      requestAnimationFrame(() => {
        const channel = new MessageChannel();
        channel.port1.onmessage = () => globalThis.waits.push(performance.now() - begun);
        channel.port2.postMessage(0);
      });
    }).observe(document.querySelector(".sheet"), { childList: true, subtree: true });
  });
  await shown.mouse.move(x, y);
  await shown.mouse.down();
  for (let step = 1; step <= count; step += 1) {
    const angle = step * 0.23;
    const before = await shown.evaluate(() => globalThis.waits.length);
    await shown.mouse.move(x + 14 * Math.sin(angle), y + 9 * Math.cos(angle));
    await shown.waitForFunction((known) => globalThis.waits.length > known, before, { timeout: 4000, polling: 4 }).catch(() => {});
  }
  const found = await shown.evaluate(() => ({ waits: globalThis.waits, bytes: globalThis.bytes }));
  await shown.mouse.up();
  return found;
}

const program = await served({ profile: "release" });
const chrome = await browser(FLAT);
const spacious = await browser(SPACE);
try {
  for (const [width, height, slowed, limit] of [[1440, 900, 1, 50], [390, 844, 4, 150]]) {
    const context = await chrome.newContext({ viewport: { width, height } });
    const shown = await page(context, program.address, "walls");
    if (slowed > 1) await (await context.newCDPSession(shown)).send("Emulation.setCPUThrottlingRate", { rate: slowed });
    const { waits, bytes } = await drags(shown, DRAGS);
    told(`drag to paint at ${width} px${slowed > 1 ? `, processor ${slowed} times slower` : ""}, ${waits.length} drags`, waits, limit);
    told("one frame of the drag", bytes.slice(1).map((count) => count / 1000), 120, "kB");
    await context.close();
  }

  const [paints, ready] = [[], []];
  for (let run = 0; run < 9; run += 1) {
    const context = await chrome.newContext({ viewport: { width: 1440, height: 900 } });
    const shown = await context.newPage();
    await shown.goto(program.address);
    await shown.waitForSelector("nav svg a");
    ready.push(await shown.evaluate(() => performance.now()));
    paints.push(await shown.evaluate(() => performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? NaN));
    await context.close();
  }
  told("first paint", paints, 300);
  told("the house drawn and its doors open", ready, 800);

  const dist = join(import.meta.dirname, "../dist");
  const files = readdirSync(dist, { recursive: true }).filter((name) => /\.\w+$/.test(name));
  const weigh = (names) => names.reduce((sum, name) => sum + (/woff2$/.test(name) ? readFileSync(join(dist, name)).length : gzipSync(readFileSync(join(dist, name))).length), 0) / 1000;
  told("weight without bodies in space", [weigh(files.filter((name) => !name.includes("solid-")))], 250, "kB");
  told("weight with them", [weigh(files)], 700, "kB");

  const context = await spacious.newContext({ viewport: { width: 1440, height: 900 } });
  const shown = await page(context, program.address, "roof");
  await shown.waitForFunction(() => globalThis.stage?.tally().triangles > 0, null, { timeout: 20000 });
  // Each frame once, and not the first, in which the machine makes its programs for drawing.
  const frames = [];
  let known = await shown.evaluate(() => globalThis.stage.tally().frame);
  await shown.locator(".stage").focus();
  for (let turn = 0; turn < 60; turn += 1) {
    await shown.keyboard.press("ArrowRight");
    await shown.waitForFunction((before) => globalThis.stage.tally().frame > before, known, { timeout: 20000 });
    const { frame, script } = await shown.evaluate(() => globalThis.stage.tally());
    known = frame;
    frames.push(script);
  }
  const { triangles, calls } = await shown.evaluate(() => globalThis.stage.tally());
  told("script of a frame in space", frames, 4);
  told("triangles", [triangles], 60000, "");
  told("draw calls", [calls], 80, "");
  await context.close();

  const memory = () => Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${program.pid}/status`, "utf8"))[1]) / 1000;
  const ticks = () => readFileSync(`/proc/${program.pid}/stat`, "utf8").split(" ").slice(13, 15).reduce((sum, one) => sum + Number(one), 0);
  const edit = async (count) => {
    for (let turn = 0; turn < count; turn += 1) {
      const to = `${2100 + (turn % 20) * 10} mm`;
      await fetch(`${program.address}look`, {
        method: "POST",
        headers: { "content-type": "application/json" },
        body: JSON.stringify({ leaf: "walls", room_mm: [200, 150], since: null, change: { kind: "set", path: "wall.height", to }, moving: false }),
      });
    }
  };
  await edit(200);
  const before = memory();
  await edit(1000);
  told(`growth of the program's memory over 1,000 edits, from ${before.toFixed(0)} MB`, [memory() - before], 40, "MB");
  const idle = ticks();
  await new Promise((done) => setTimeout(done, 10_000));
  told("processor time of the idle program in 10 s", [(ticks() - idle) * 10], 20);
} finally {
  await chrome.close();
  await spacious.close();
  await program.stop();
  program.clear();
}

// Starts the real program on a copy of a build, and a real browser before it.
import { execFileSync, spawn } from "node:child_process";
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { chromium } from "playwright-core";

const ROOT = resolve(import.meta.dirname, "../..");
const TARGET = resolve(process.env.CARGO_TARGET_DIR || join(ROOT, "target"));

/** The program as it was built: for tests, or for speed. */
export function program(profile = "debug") {
  const file = join(TARGET, profile, "loamwright");
  if (!existsSync(file)) throw new Error(`${file} is not built: cargo build --package loamwright`);
  return file;
}

/** A folder of its own with a copy of a build, or empty. */
export function folder(build) {
  const place = mkdtempSync(join(tmpdir(), "loamwright-"));
  if (build) cpSync(join(ROOT, "builds", build, `${build}.loam.toml`), join(place, `${build}.loam.toml`));
  return place;
}

/** The program with its page open; `stop` ends it. */
export async function served({ build = "tansy-bank", place = folder(build), port = 0, profile = "debug" } = {}) {
  const file = build ? join(place, `${build}.loam.toml`) : null;
  const words = ["open", ...(file ? [file] : []), "--quiet", ...(port ? ["--port", String(port)] : [])];
  const child = spawn(program(profile), words, { cwd: place, stdio: ["ignore", "pipe", "pipe"] });
  let told = "";
  const address = await new Promise((done, failed) => {
    const hear = (data) => {
      told += data;
      const found = /http:\/\/127\.0\.0\.1:\d+\/?/.exec(told);
      if (found) done(found[0].replace(/\/?$/, "/"));
    };
    child.stdout.on("data", hear);
    child.stderr.on("data", hear);
    child.on("exit", (code) => failed(new Error(`the program ended with ${code}: ${told}`)));
  });
  const ended = new Promise((done) => child.once("exit", done));
  return {
    address,
    place,
    file,
    pid: child.pid,
    port: Number(new URL(address).port),
    text: () => readFileSync(file, "utf8"),
    stop: async () => {
      child.kill();
      await ended;
    },
    clear: () => rmSync(place, { recursive: true, force: true }),
  };
}

/** Paths and values of every row, as the command line shows them for a build file in these units. */
export function shownRows(file, units = "metric") {
  const text = execFileSync(program(), ["export", "rows", file, "--units", units], { encoding: "utf8", maxBuffer: 1 << 26 });
  const cell = /"((?:[^"]|"")*)"|([^,]*)/y;
  return text.trim().split("\n").slice(1).map((line) => {
    const cells = [];
    for (let at = 0; at <= line.length; at = cell.lastIndex + 1) {
      cell.lastIndex = at;
      const [, quoted, plain] = cell.exec(line);
      cells.push(quoted?.replaceAll('""', '"') ?? plain);
    }
    return [cells[0], cells[4]];
  });
}

const FLAGS = ["--no-sandbox", "--disable-quic", "--disable-background-networking", "--disable-component-update", "--disable-sync"];
/** Bodies in space without a graphics card: right, but slow for everything else on the page. */
export const SPACE = ["--use-angle=swiftshader", "--enable-unsafe-swiftshader"];
/** The page drawn by the processor alone, as a browser does where there is no graphics card. */
export const FLAT = ["--disable-gpu"];

export function browser(extra = FLAT) {
  const executablePath = process.env.CHROME || ["/usr/bin/chromium", "/usr/bin/google-chrome"].find(existsSync);
  if (!executablePath) throw new Error("No browser: sudo apt-get install --yes chromium");
  return chromium.launch({ executablePath, args: [...FLAGS, ...extra] });
}

/** A page that keeps every error it meets, and the sum of its layout shifts. */
export async function page(context, address, leaf = "") {
  const shown = await context.newPage();
  const faults = [];
  shown.on("console", (message) => message.type() === "error" && faults.push(message.text()));
  shown.on("pageerror", (error) => faults.push(String(error)));
  await shown.addInitScript(() => {
    globalThis.shifts = 0;
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) if (!entry.hadRecentInput) globalThis.shifts += entry.value;
    }).observe({ type: "layout-shift", buffered: true });
  });
  await shown.goto(leaf ? `${address}#${leaf}` : address);
  await shown.waitForSelector("main svg, main canvas, main h1");
  return Object.assign(shown, { faults });
}

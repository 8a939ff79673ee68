// What the page knows of the build, and the one queue through which it asks for more.
import { SvelteMap } from "svelte/reactivity";
import { listen, look, Refused } from "./talk";
import type { Change, Check, Frame, Picture, Problem, Row } from "./wire";

const MM_PER_PX = 25.4 / 96;
/** Words of the leaves in the address. */
export const LEAVES = ["ground", "walls", "earth", "skin", "roof", "stuff", "book"] as const;
export type Leaf = (typeof LEAVES)[number] | "";

interface Asked {
  change: Change | null;
  moving: boolean;
  done: (frame: Frame | null) => void;
}

class Sitting {
  frame = $state.raw<Frame | null>(null);
  rows = $state.raw<ReadonlyMap<string, Row>>(new Map());
  checks = $state.raw<readonly Check[]>([]);
  pictures = $state.raw<readonly Picture[]>([]);
  /** What is wrong with the last change; gone with the next one that is taken. */
  problems = $state.raw<readonly Problem[]>([]);
  /** The leaf that is asked for. */
  leaf = $state<Leaf>("");
  /** The leaf that what is here belongs to: the old one stays until the new one has come. */
  shown = $state<Leaf>("");
  /** Whether the program on this computer answers. */
  alive = $state(true);
  /** What could not be done, in words. */
  fault = $state("");
  /** The job that runs, if any. */
  job = $state.raw<{ name: string; share: number; words: string } | null>(null);
  jobEnded = $state.raw<{ name: string; fault: string } | null>(null);
  /** How far each study is that runs. */
  readonly shares = new SvelteMap<string, number>();
  /** The revision that the last book is of; none before one was made. */
  book = $state<number | null>(null);
  /** The row whose reason is open. */
  reason = $state("");

  /** By which the program tells two pages apart. */
  private readonly name = crypto.randomUUID();
  private room: [number, number] = [200, 150];
  private waiting: Asked[] = [];
  /** Whether something is asked that is not answered yet, the steps of a drag left out: they would draw the page twice. */
  busy = $state(false);
  private isAsking = false;
  private since: number | null = null;

  start(): void {
    this.leaf = leafOf(location.hash) ?? "";
    addEventListener("hashchange", () => {
      const leaf = leafOf(location.hash);
      if (leaf === null) return;
      this.leaf = leaf;
      this.reason = "";
      this.problems = [];
    });
    listen(
      (event) => {
        if (event.kind === "changed") {
          if (event.by !== this.name) this.ask(null);
        } else if (event.kind === "study") {
          this.shares.set(event.name, event.share);
        } else if (event.kind === "studied") {
          this.shares.delete(event.name);
          this.ask(null);
        } else if (event.kind === "job") {
          this.job = event;
        } else {
          this.job = null;
          this.jobEnded = event;
          this.book = event.revision;
        }
      },
      (is) => {
        const back = is && !this.alive;
        this.alive = is;
        if (back) this.whole();
      },
    );
  }

  /**
   * Tells how much room the picture has, in CSS pixels; asks for all again when that changes, and for a leaf that is new at once in its
   * room: drawn twice, it would jump, and a door be gone between press and release.
   */
  fit(width: number, height: number, isNew = false): void {
    const room: [number, number] = [Math.round(width * MM_PER_PX), Math.round(height * MM_PER_PX)];
    // A window that is put away for a moment has no room at all.
    const isOther = room[0] > 0 && (room[0] !== this.room[0] || Math.abs(room[1] - this.room[1]) >= 12);
    if (isOther) this.room = room;
    if (isOther || isNew) this.ask(null);
  }

  /** Asks for everything anew. */
  whole(): void {
    this.since = null;
    this.ask(null);
  }

  /** Asks for a change, or only what is new; a drag that waits gives way to the newest. */
  ask(change: Change | null, moving = false): Promise<Frame | null> {
    const waits = this.waiting.at(-1);
    if (waits && moving && waits.moving) {
      waits.done(null);
      this.waiting.pop();
    }
    return new Promise((done) => {
      this.waiting.push({ change, moving, done });
      if (!moving || change?.kind !== "drag") this.busy = true;
      void this.next();
    });
  }

  private async next(): Promise<void> {
    if (this.isAsking) return;
    this.isAsking = true;
    for (let asked = this.waiting.shift(); asked; asked = this.waiting.shift()) {
      asked.done(await this.one(asked));
    }
    this.busy = this.isAsking = false;
  }

  private async one({ change, moving }: Asked): Promise<Frame | null> {
    const leaf = this.leaf;
    try {
      const frame = await look({ leaf, room_mm: this.room, since: this.since, change, moving, page: this.name });
      this.shown = leaf;
      this.take(frame, moving && change?.kind === "drag");
      this.alive = true;
      this.fault = "";
      return frame;
    } catch (error) {
      if (error instanceof Refused) {
        if (error.status !== 409) this.fault = error.message;
      } else {
        this.alive = false;
      }
      return null;
    }
  }

  private take(frame: Frame, moving: boolean): void {
    const rows = frame.whole ? new Map<string, Row>() : new Map(this.rows);
    for (const path of frame.gone) rows.delete(path);
    for (const row of frame.rows) rows.set(row.path, row);
    for (const [path, shown] of frame.values) {
      const row = rows.get(path);
      if (row) rows.set(path, { ...row, shown });
    }
    this.rows = rows;
    this.checks = frame.checks ?? this.checks;
    this.problems = frame.problems;
    this.book = frame.book;
    // What runs is told by the event stream; one that was missed is told by the frame.
    for (const study of moving ? [] : frame.studies) {
      if (study.share === null) this.shares.delete(study.name);
      else if (!this.shares.has(study.name)) this.shares.set(study.name, study.share);
    }
    const drawn = frame.pictures.map((picture) => {
      const before = this.pictures.find((one) => one.name === picture.name);
      return picture.svg === "" && before ? { ...picture, svg: before.svg } : picture;
    });
    // A frame of a drag brings only the pictures that move, and no fields.
    this.pictures = moving ? this.pictures.map((old) => drawn.find((one) => one.name === old.name) ?? old) : drawn;
    this.frame = moving && this.frame ? { ...frame, fields: this.frame.fields, tables: this.frame.tables, studies: this.frame.studies, orders: this.frame.orders } : frame;
    // A first shape is no build yet: nothing of it is counted on.
    this.since = frame.revision > 0 ? frame.revision : null;
  }
}

/** The leaf that an address names, empty for the whole house; null where the word is none of theirs. */
function leafOf(hash: string): Leaf | null {
  const word = hash.slice(1);
  return word === "" || word === "house" ? "" : (LEAVES.find((leaf) => leaf === word) ?? null);
}

export const sitting = new Sitting();

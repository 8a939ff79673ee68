// Made from app/src/serve/wire.rs; its test says how to make it anew.

/**
 * What the page asks: where it stands, and what to change first.
 */

export type Look = { 
/**
 * The leaf that is open; empty for the way round the house.
 */
leaf: string, 
/**
 * Room for the picture in millimetres of the screen (96 px to the inch).
 */
room_mm: [number, number], 
/**
 * The revision whose rows the page has, to be sent only what differs; none for everything.
 */
since: number | null, 
/**
 * What to change; none to look only.
 */
change: Change | null, 
/**
 * Whether the finger is still down: nothing is written to disk and no undo step begins.
 */
moving: boolean, 
/**
 * A name that the page gives itself when it loads, to tell two tabs apart.
 */
page?: string, };

/**
 * A change to the build.
 */

export type Change = { "kind": "set", path: string, to: string, } | { "kind": "fill", table: string, keys: Array<[string, string]>, } | { "kind": "remove", path: string, } | { "kind": "add", what: string, drawing: string, at_mm: [number, number], } | { "kind": "rename", path: string, to: string, } | { "kind": "move", path: string, to: number, } | { "kind": "drag", drawing: string, handle: string, to_mm: [number, number], } | { "kind": "nudge", drawing: string, handle: string, steps: [number, number], } | { "kind": "whole", text: string, } | { "kind": "undo" } | { "kind": "redo" } | { "kind": "units", system: string, } | { "kind": "settle", keep: string, } | { "kind": "begin", shape: string, length: string, width: string, name: string, system: string, };

/**
 * What is to be shown.
 */

export type Frame = { 
/**
 * Grows with every change.
 */
revision: number, 
/**
 * The build file's name; empty before it is on disk.
 */
file: string, 
/**
 * Name of the house.
 */
name: string, 
/**
 * `metric` or `us`.
 */
system: string, 
/**
 * How the text stands to the disk: `saved`, `unsaved`, `clash`, `gone`, `not-written`; with words for the last three.
 */
disk: string, disk_words: string, can_undo: boolean, can_redo: boolean, 
/**
 * All rows, or those whose words changed since the revision asked for.
 */
rows: Array<Row>, 
/**
 * Path and value of the rows of which the value alone changed.
 */
values: Array<[string, string]>, 
/**
 * Paths of rows that are no more.
 */
gone: Array<string>, 
/**
 * Whether `rows` is everything.
 */
whole: boolean, 
/**
 * The checks of the open leaf, the most urgent first; none when unchanged since the revision asked for.
 */
checks: Array<Check> | null, 
/**
 * What is wrong with the change asked for; the last good house goes on being shown.
 */
problems: Array<Problem>, 
/**
 * The whole text of the file, sent when it does not read.
 */
text: string | null, 
/**
 * Drawings of the open leaf; `svg` empty when unchanged.
 */
pictures: Array<Picture>, 
/**
 * Fields of the open leaf.
 */
fields: Array<Field>, 
/**
 * Paths of the few rows that the open leaf shows large.
 */
figures: Array<string>, 
/**
 * Tables of the build file that nothing reads yet, in words.
 */
unread: Array<string>, 
/**
 * What the house takes that no order counts, in sentences, on the leaf of the orders.
 */
uncounted: Array<string>, 
/**
 * Recipes as drawings, openings and the like: tables of the open leaf.
 */
tables: Array<Table>, 
/**
 * What to order, on the leaf that orders.
 */
orders: Array<Order>, 
/**
 * Long computations of the open leaf.
 */
studies: Array<Study>, 
/**
 * The revision that the last book made is of; none when none was made of this build.
 */
book: number | null, 
/**
 * Milliseconds that the engine and drawings took.
 */
took_ms: number, };

export type Row = { path: string, title: string, 
/**
 * The value with its unit.
 */
shown: string, 
/**
 * Where it comes from, in words.
 */
origin: string, assumed: boolean, };

export type Check = { 
/**
 * `holds`, `tight`, `fails`, `on trust`, `not known`.
 */
state: string, title: string, words: string, 
/**
 * The row that it holds a limit against; there may be none of this path.
 */
path: string, leaf: string, 
/**
 * Where its limit comes from.
 */
rule: string, 
/**
 * Assumed values that the state leans on: path and title; a few where the check before is of the same rule.
 */
leans_on: Array<[string, string]>, 
/**
 * How many more of them the first check of the rule names.
 */
leans_more: number, 
/**
 * Who must decide, where a licensed person must; empty otherwise.
 */
who_decides: string, };

export type Problem = { path: string, 
/**
 * Line in the text, from 1.
 */
line: number, message: string, hint: string, };

export type Picture = { 
/**
 * Name of the drawing, as `export` has it.
 */
name: string, title: string, note: string, 
/**
 * Its text; its unit is the millimetre of its own `viewBox`.
 */
svg: string, handles: Array<Handle>, 
/**
 * Labels that found no room: number and words.
 */
key: Array<[number, string]>, };

/**
 * What can be taken hold of.
 */

export type Handle = { id: string, 
/**
 * What it is, for who does not see it.
 */
title: string, at_mm: [number, number], 
/**
 * `point`, `curve`, `along`, `up`, `free`: how it looks and which arrow keys move it.
 */
kind: string, 
/**
 * The row shown while it moves.
 */
row: string, 
/**
 * What can be removed by Delete; empty when nothing.
 */
removes: string, };

export type Field = { 
/**
 * Key in the build file.
 */
path: string, title: string, 
/**
 * As written; empty when the file has none.
 */
written: string, 
/**
 * What is taken where nothing is written.
 */
taken: string, 
/**
 * Usual range, in the reader's units.
 */
usual: string, 
/**
 * What it is for.
 */
purpose: string, 
/**
 * Group heading.
 */
group: string, 
/**
 * Words to choose from; empty for free text.
 */
choices: Array<string>, 
/**
 * The thing that its group is about, which can be taken out whole; empty where a group is about none.
 */
thing: string, };

export type Table = { title: string, header: Array<string>, rows: Array<Array<string>>, };

/**
 * A long computation.
 */

export type Study = { 
/**
 * Its name, by which `/study/NAME` begins it and `/study/NAME/stop` ends it.
 */
name: string, title: string, 
/**
 * What it does.
 */
about: string, 
/**
 * How far it is, from 0 to 1; none where it does not run.
 */
share: number | null, 
/**
 * Whether it was stopped before it came to an end.
 */
stopped: boolean, 
/**
 * What was found last: of this design or of an earlier one; none where nothing was.
 */
found: Found | null, };

/**
 * What a long computation found.
 */

export type Found = { 
/**
 * Whether it is for the design before the last changes.
 */
before: boolean, 
/**
 * What it comes to.
 */
words: Array<string>, tables: Array<Table>, 
/**
 * What was taken, what was left out, how it was done.
 */
notes: Array<string>, 
/**
 * What people must know before they lean on it; empty where nothing.
 */
caution: string, 
/**
 * What can be taken over; none where nothing is better, or it is of an earlier design.
 */
offer: Offer | null, };

/**
 * A change that the builder may accept.
 */

export type Offer = { 
/**
 * What is to be done, step by step.
 */
words: Array<string>, 
/**
 * What is written into the build file, where: a change of the kind `set`.
 */
path: string, to: string, };

/**
 * A line of what to order.
 */

export type Order = { 
/**
 * What the build calls it: `[prices.NAME]` says what it costs.
 */
name: string, 
/**
 * What the supplier calls it, and what else he must be told.
 */
about: string, 
/**
 * What the build takes.
 */
needed: string, 
/**
 * What to ask for, what one costs and what all do: a dash where it is not known.
 */
order: string, price: string, cost: string, 
/**
 * What is open beside its price, in words.
 */
open: Array<string>, 
/**
 * Whether it is to be paid for and its cost is not known.
 */
has_no_cost: boolean, 
/**
 * Whether the build file has a table of its price.
 */
is_written: boolean, 
/**
 * Words of what it can be sold by; with each whether one of them must be told what it holds, by an example.
 */
sold_by: Array<[string, string]>, };

/**
 * Why a value is what it is.
 */

export type Reason = { path: string, title: string, shown: string, origin: string, 
/**
 * What was done, in words.
 */
words: string, equation: string, source: string, inputs: Array<Row>, 
/**
 * Rows that lean on it.
 */
leads_to: Array<Row>, };

/**
 * What differs between two builds.
 */

export type Beside = { 
/**
 * Words for the other build.
 */
other: string, rows: Array<Differs>, pictures: [string, string], };

export type Differs = { path: string, title: string, here: string, there: string, };

/**
 * A thing told by the event stream.
 */

export type Event = { "kind": "changed", revision: number, by: string, } | { "kind": "job", name: string, share: number, words: string, } | { "kind": "done", name: string, fault: string, revision: number | null, } | { "kind": "study", name: string, share: number, } | { "kind": "studied", name: string, };

/**
 * A drawing of the book, to be printed by itself.
 */

export type Listed = { 
/**
 * Its name, by which `/drawing/NAME.svg` gives it.
 */
name: string, 
/**
 * What it shows.
 */
title: string, };

/**
 * A build file of the folder.
 */

export type BuildFile = { 
/**
 * Its name in the folder.
 */
file: string, 
/**
 * Name of the house; empty where the file does not read.
 */
name: string, };

/**
 * Which build file of the folder is to be opened.
 */

export type Open = { 
/**
 * Its name in the folder.
 */
file: string, };

/**
 * A kept copy of the build.
 */

export type Kept = { 
/**
 * Its name, by which `/beside?file=` finds it.
 */
file: string, 
/**
 * When it was kept, in words.
 */
words: string, };

// stand-in until generated
export type Look = { leaf: string, room_mm: [number, number], since: number | null, change: Change | null, moving: boolean };
export type Change = { kind: "set", path: string, to: string } | { kind: "remove", path: string } | { kind: "add", what: string, drawing: string, at_mm: [number, number] } | { kind: "rename", path: string, to: string } | { kind: "move", path: string, to: number } | { kind: "drag", drawing: string, handle: string, to_mm: [number, number] } | { kind: "nudge", drawing: string, handle: string, steps: [number, number] } | { kind: "whole", text: string } | { kind: "undo" } | { kind: "redo" } | { kind: "units", system: string } | { kind: "settle", keep: string } | { kind: "begin", shape: string, length: string, width: string, name: string, system: string };
export type Frame = { revision: number, file: string, name: string, system: string, disk: string, disk_words: string, can_undo: boolean, can_redo: boolean, rows: Array<Row>, gone: Array<string>, whole: boolean, checks: Array<Check> | null, problems: Array<Problem>, text: string | null, doors: Array<Door>, pictures: Array<Picture>, fields: Array<Field>, figures: Array<string>, tables: Array<Table>, took_ms: number };
export type Row = { path: string, title: string, shown: string, origin: string, assumed: boolean };
export type Check = { state: string, title: string, words: string, path: string, leaf: string };
export type Problem = { path: string, line: number, message: string, hint: string };
export type Door = { leaf: string, title: string, state: string, words: string };
export type Picture = { name: string, title: string, note: string, svg: string, handles: Array<Handle>, key: Array<[number, string]> };
export type Handle = { id: string, title: string, at_mm: [number, number], kind: string, row: string, removes: string };
export type Field = { path: string, title: string, written: string, taken: string, usual: string, purpose: string, group: string, choices: Array<string> };
export type Table = { title: string, header: Array<string>, rows: Array<Array<string>> };
export type Reason = { path: string, title: string, shown: string, origin: string, words: string, equation: string, source: string, inputs: Array<Row>, leads_to: Array<Row> };
export type Beside = { other: string, rows: Array<Differs>, pictures: [string, string] };
export type Differs = { path: string, title: string, here: string, there: string };
export type Event = { kind: "changed", revision: number, by: string } | { kind: "job", name: string, share: number, words: string } | { kind: "done", name: string, fault: string };

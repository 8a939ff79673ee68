// Every word between the page and the program on this computer.
import type { Beside, BuildFile, Event, Frame, Kept, Listed, Look, Reason } from "./wire";

/** What the program said when it could not do as asked. */
export class Refused extends Error {
  constructor(
    readonly status: number,
    message: string,
  ) {
    super(message);
  }
}

async function answered(path: string, init?: RequestInit): Promise<Response> {
  const response = await fetch(path, init);
  if (!response.ok) throw new Refused(response.status, await response.text());
  return response;
}

function posted(body: unknown): RequestInit {
  return { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify(body) };
}

export async function look(asked: Look): Promise<Frame> {
  return (await answered("/look", posted(asked))).json() as Promise<Frame>;
}

export async function reason(path: string): Promise<Reason> {
  return (await answered(`/reason?path=${encodeURIComponent(path)}`)).json() as Promise<Reason>;
}

export async function beside(query: Record<string, string>): Promise<Beside> {
  return (await answered(`/beside?${new URLSearchParams(query)}`)).json() as Promise<Beside>;
}

export async function builds(): Promise<BuildFile[]> {
  return (await answered("/builds")).json() as Promise<BuildFile[]>;
}

export async function drawings(): Promise<Listed[]> {
  return (await answered("/drawings")).json() as Promise<Listed[]>;
}

export async function kept(): Promise<Kept[]> {
  return (await answered("/kept")).json() as Promise<Kept[]>;
}

/** The bodies of the house as a model, and the parts that have none, each with why. */
export async function bodies(): Promise<{ glb: ArrayBuffer; leftOut: string[] }> {
  const response = await answered("/house.glb");
  const leftOut = JSON.parse(response.headers.get("left-out") ?? "[]") as string[];
  return { glb: await response.arrayBuffer(), leftOut };
}

export async function open(file: string): Promise<void> {
  await answered("/open", posted({ file }));
}

export async function told(path: "/keep" | "/book" | "/book/stop" | `/study/${string}`): Promise<void> {
  await answered(path, posted({}));
}

/** Listens to what happens elsewhere; `alive` says whether the program answers. */
export function listen(hear: (event: Event) => void, alive: (is: boolean) => void): void {
  const source = new EventSource("/events");
  source.onopen = () => alive(true);
  source.onerror = () => alive(false);
  source.onmessage = (message: MessageEvent<string>) => hear(JSON.parse(message.data) as Event);
}

/** Asks the program; every answer is a row of its schema, every refusal a fault. */
import type { components } from "./schema";

export type Rows = components["schemas"];
export type State = Rows["StateRow"];
export type Change = Rows["ChangeRow"];
export type Fault = Rows["FaultRow"];
export type Tools = Rows["ToolsRow"];
export type Sheet = Rows["SheetRow"];
export type Tool = Rows["ToolRow"];
export type Size = Rows["ToolSizeRow"];
export type Cell = Rows["MeasureCellRow"];
export type Kind = Rows["KindRow"];
export type Column = Rows["ColumnRow"];
export type Drawing = Rows["DrawingRow"];
export type Field = Rows["FieldRow"];
export type Form = Rows["FormRow"];
export type Settings = Rows["SettingsRow"];
export type Standing = Rows["StandingRow"];
export type Difference = Rows["DifferenceRow"];

/** The program refused: what is wrong, and what would be right. */
export class Refusal extends Error {
  constructor(
    readonly status: number,
    readonly fault: Fault,
  ) {
    super(fault.sentence);
  }
}

/** The program does not answer. */
export class NotReached extends Error {
  constructor(
    words: string,
    readonly status = 0,
  ) {
    super(words);
  }
}

async function answer(path: string, init: RequestInit): Promise<Response> {
  let found: Response;
  try {
    found = await fetch(`/api/${path}`, init);
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") throw error;
    throw new NotReached("The program does not answer.");
  }
  if (found.ok) return found;
  const told: unknown = await found.json().catch(() => null);
  if (told && typeof told === "object" && "sentence" in told) {
    throw new Refusal(found.status, told as Fault);
  }
  throw new NotReached(`The program answered with ${found.status}.`, found.status);
}

export async function get<T>(path: string, signal?: AbortSignal): Promise<T> {
  const found = await answer(path, signal ? { signal } : {});
  return (await found.json()) as T;
}

export async function getBytes(path: string, signal?: AbortSignal): Promise<ArrayBuffer> {
  return (await answer(path, signal ? { signal } : {})).arrayBuffer();
}

export async function send<T>(
  path: string,
  body?: unknown,
  { method = "POST", signal }: { method?: string; signal?: AbortSignal } = {},
): Promise<T> {
  const init: RequestInit = { method };
  if (signal) init.signal = signal;
  if (body !== undefined) {
    init.body = JSON.stringify(body);
    init.headers = { "content-type": "application/json" };
  }
  return (await (await answer(path, init)).json()) as T;
}

/**
 * Answers to one question, asked again whenever something happens: one that comes late never takes
 * the place of an answer to a later asking.
 */
export class Newest {
  private asked = 0;
  private answered = 0;

  /** Ask, and take the answer unless one to a later asking was taken. */
  async ask<Found>(ask: () => Promise<Found>, take: (found: Found) => void): Promise<void> {
    const number = ++this.asked;
    const found = await ask();
    if (number < this.answered) return;
    this.answered = number;
    take(found);
  }
}

/** Send a file as it is; its name says of what type it is. */
export async function sendFile<T>(path: string, file: File): Promise<T> {
  const init = { method: "POST", body: file, headers: { "content-type": "application/octet-stream" } };
  return (await (await answer(`${path}?name=${encodeURIComponent(file.name)}`, init)).json()) as T;
}

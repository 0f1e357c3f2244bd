import { idSchema } from "../../shared/protocol/text.ts";

/** Sessions that a position names, and characters of it: a header of more is not read. */
const MOST = 250;
const CHARACTERS = 12_000;

/** The place of a reader: in each session the number of the last event that it got. */
export interface Position {
  /** Server milliseconds. A session that was planned later and is not named is new to the reader. */
  since: number;
  sessions: Map<string, number>;
}

const TIME = /^t(\d{1,16})$/;
const PLACE = /^([^:]+):(0|[1-9]\d{0,9})$/;

/** Returns the position as the id of a server-sent event: `<session>:<number>`, for several with their time before. */
export function positionText({ since, sessions }: Position, many: boolean): string {
  const places = [...sessions].map(([session, seq]) => `${session}:${seq}`);
  return [...(many ? [`t${since}`] : []), ...places].join(" ");
}

/** Returns the position that an id gives; null when it is none. */
export function positionIn(text: string): Position | null {
  const parts = text.split(" ");
  if (text.length > CHARACTERS || parts.length > MOST + 1) return null;
  const time = TIME.exec(parts[0] ?? "")?.[1];
  const sessions = new Map<string, number>();
  for (const part of time === undefined ? parts : parts.slice(1)) {
    const [, session, seq] = PLACE.exec(part) ?? [];
    if (session === undefined || !idSchema.safeParse(session).success || sessions.has(session)) return null;
    sessions.set(session, Number(seq));
  }
  return { since: Number(time ?? 0), sessions };
}

import { genesis, seal } from "../../shared/evidence/chain.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { RecordEvent } from "../../shared/protocol/recordEvents.ts";
import { sha256 } from "../spec/given.ts";

export type AnyEvent = SessionEvent | RecordEvent;

/** Returns the events as NDJSON with an unbroken hash chain, whatever they say. */
export function sealedLines(events: readonly AnyEvent[]): string {
  let head = genesis(events[0]?.session ?? "", sha256);
  const lines = events.map((event) => {
    const sealed = seal(event as SessionEvent, head, sha256);
    head = sealed.hash;
    return `${sealed.body}\n`;
  });
  return lines.join("");
}

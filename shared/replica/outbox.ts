import type { Command } from "../protocol/commands.ts";
import type { SessionEvent } from "../protocol/events.ts";
import type { WireError } from "../protocol/wire.ts";
import { isStop } from "../signals/isStop.ts";

/** Milliseconds that an ordinary command may wait for the link before the person is asked again. */
export const COMMAND_LIFE_MS = 15_000;

/** Waits before the second, third, fourth and every later try, milliseconds. */
export const RETRY_MS = [1_000, 2_000, 4_000, 8_000] as const;

/** A command on its way, written down before its first try. Plain JSON. */
export interface Entry {
  command: Command;
  /** Times handed to the link. With 0 the server cannot have it; above 0 it may. */
  tries: number;
  /** Panel clock, milliseconds: not tried again before. */
  nextAt: number;
  /** Its time ran out unanswered: it is not sent again, the person says what now. */
  lapsed: boolean;
}

/** Oldest first. */
export type Outbox = readonly Entry[];

/**
 * A command as a panel sends it: an ordinary one dies after `COMMAND_LIFE_MS`, a stop never does.
 * @param serverNow the panel's estimate of server time; null before the clocks were compared, when only a stop can go
 */
export function commandFor(
  what: Pick<Command, "id" | "session" | "action" | "clientAt">,
  serverNow: number | null,
): Command | null {
  const command: Command = { v: 1, ...what };
  if (isStop(what.action)) return command;
  return serverNow === null ? null : { ...command, validUntil: Math.round(serverNow) + COMMAND_LIFE_MS };
}

/** Written down; the same command twice is one entry. */
export function enqueue(outbox: Outbox, command: Command, now: number): Outbox {
  if (outbox.some((e) => e.command.id === command.id)) return outbox;
  return [...outbox, { command, tries: 0, nextAt: now, lapsed: false }];
}

/**
 * Returns the commands to send now, and the outbox after that. Stops go at once, before all others. The rest go one at
 * a time in the order given, so that a later one never overtakes an earlier one. Nothing past its `validUntil` is sent:
 * it lapses, and makes way.
 * @param now the panel's clock, milliseconds
 * @param serverNow estimated server time; null while unknown, when only stops go
 */
export function takeDue(
  outbox: Outbox,
  now: number,
  serverNow: number | null,
): { outbox: Outbox; send: Command[] } {
  const stops: Command[] = [];
  const others: Command[] = [];
  let busy = false;
  const next = outbox.map((entry): Entry => {
    if (entry.lapsed) return entry;
    const stop = isStop(entry.command.action);
    if (!stop) {
      if (serverNow === null || busy) return lapse(entry, serverNow);
      const checked = lapse(entry, serverNow);
      if (checked.lapsed) return checked;
      busy = true;
    }
    if (now < entry.nextAt) return entry;
    (stop ? stops : others).push(entry.command);
    return { ...entry, tries: entry.tries + 1, nextAt: now + waitAfter(entry.tries) };
  });
  return { outbox: next, send: [...stops, ...others] };
}

function lapse(entry: Entry, serverNow: number | null): Entry {
  const until = entry.command.validUntil;
  return until !== undefined && serverNow !== null && serverNow >= until ? { ...entry, lapsed: true } : entry;
}

function waitAfter(tries: number): number {
  return RETRY_MS[Math.min(tries, RETRY_MS.length - 1)] ?? RETRY_MS[0];
}

/** The next moment of the panel's clock at which `takeDue` may have something to send; null when nothing waits. */
export function nextTry(outbox: Outbox): number | null {
  const waiting = outbox.filter((e) => !e.lapsed).map((e) => e.nextAt);
  return waiting.length === 0 ? null : Math.min(...waiting);
}

/** The link came up: what waits is tried at once, its back-off forgotten. */
export function linkUp(outbox: Outbox, now: number): Outbox {
  return outbox.map((e) => ({ ...e, nextAt: Math.min(e.nextAt, now) }));
}

/** Answered, or dropped by the person. */
export function settle(outbox: Outbox, id: string): Outbox {
  return outbox.filter((e) => e.command.id !== id);
}

/** Events that arrived say what was recorded, though the answer itself was lost. */
export function settleFrom(outbox: Outbox, events: readonly SessionEvent[]): Outbox {
  const recorded = new Set(events.map((e) => e.command));
  return outbox.filter((e) => !recorded.has(e.command.id));
}

/** The person wants a lapsed one sent after all: as a new command, with its own id and time, in the old one's place. */
export function renew(outbox: Outbox, id: string, fresh: Command, now: number): Outbox {
  return outbox.map((e) =>
    e.command.id === id && e.lapsed ? { command: fresh, tries: 0, nextAt: now, lapsed: false } : e,
  );
}

/** Wire errors after which the same command cannot succeed; after any other it is tried again. */
const FINAL: readonly WireError[] = ["malformed", "tooLarge", "pinNeeded", "noSuchSession"];

/** True when a socket's error ends the command: it is told to the person, not tried again. */
export function isFinal(error: WireError): boolean {
  return FINAL.includes(error);
}

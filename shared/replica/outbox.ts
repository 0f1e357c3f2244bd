import type { Command } from "../protocol/commands.ts";
import type { SessionEvent } from "../protocol/events.ts";
import type { WireError } from "../protocol/wire.ts";
import { saidAs } from "../session/saidAs.ts";
import { isStop } from "../signals/isStop.ts";

/** Milliseconds that an ordinary command may wait for the connection before the panel asks the person again. */
export const COMMAND_LIFE_MS = 15_000;

/** Milliseconds to wait before the second, third, fourth and every later try. */
export const RETRY_MS = [1_000, 2_000, 4_000, 8_000] as const;

/** A command that is not settled yet, stored before its first try. Plain JSON. */
export interface Entry {
  command: Command;
  /** Number of tries. With 0 the server cannot have received it; above 0 it may have. */
  tries: number;
  /** Panel clock, milliseconds: no try before this. */
  nextAt: number;
  /** Its time ran out without an answer. It is not sent again until the person decides. */
  lapsed: boolean;
}

/** Entries, the oldest first. */
export type Outbox = readonly Entry[];

/**
 * Returns a command as a panel sends it. An ordinary one ends after `COMMAND_LIFE_MS`; a stop, and a report that lowers
 * confidence, never does.
 * @param serverNow the panel's estimate of server time; null until the clocks were compared, when only what never ends
 * can be sent
 */
export function commandFor(
  what: Pick<Command, "id" | "session" | "action" | "clientAt">,
  serverNow: number | null,
): Command | null {
  const command: Command = { v: 1, ...what };
  if (saidAs(what.action) !== "raises") return command;
  return serverNow === null ? null : { ...command, validUntil: Math.round(serverNow) + COMMAND_LIFE_MS };
}

/** Returns the outbox with the command stored. Storing the same command twice gives one entry. */
export function enqueue(outbox: Outbox, command: Command, now: number): Outbox {
  if (outbox.some((e) => e.command.id === command.id)) return outbox;
  return [...outbox, { command, tries: 0, nextAt: now, lapsed: false }];
}

/**
 * Returns the commands to send now, and the outbox after that. Stops are sent at once, before all others. The rest are
 * sent one at a time in the given order, so that a later one never overtakes an earlier one: "arc clear" never arrives
 * after the "arc not clear" that followed it. A command past its `validUntil` is not sent: it lapses and no longer
 * blocks the next.
 * @param now the panel's clock, milliseconds
 * @param serverNow estimated server time; null while unknown, when only what has no `validUntil` is sent
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
      const dies = entry.command.validUntil !== undefined;
      if ((serverNow === null && dies) || busy) return lapse(entry, serverNow);
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

/** Returns the next moment of the panel's clock at which `takeDue` may return something; null when nothing waits. */
export function nextTry(outbox: Outbox): number | null {
  const waiting = outbox.filter((e) => !e.lapsed).map((e) => e.nextAt);
  return waiting.length === 0 ? null : Math.min(...waiting);
}

/** Returns the outbox after the connection came up: every waiting entry is due at once, without its back-off. */
export function linkUp(outbox: Outbox, now: number): Outbox {
  return outbox.map((e) => ({ ...e, nextAt: Math.min(e.nextAt, now) }));
}

/** Returns the outbox without an entry that was answered or that the person dropped. */
export function settle(outbox: Outbox, id: string): Outbox {
  return outbox.filter((e) => e.command.id !== id);
}

/**
 * Returns the outbox without the entries whose commands these events record, because their answers may have been lost.
 */
export function settleFrom(outbox: Outbox, events: readonly SessionEvent[]): Outbox {
  const recorded = new Set(events.map((e) => e.command));
  return outbox.filter((e) => !recorded.has(e.command.id));
}

/**
 * Returns the outbox after the person chose to send a lapsed entry after all: a new command, with its own id and time,
 * takes its place.
 */
export function renew(outbox: Outbox, id: string, fresh: Command, now: number): Outbox {
  return outbox.map((e) =>
    e.command.id === id && e.lapsed ? { command: fresh, tries: 0, nextAt: now, lapsed: false } : e,
  );
}

/** Wire errors after which the same command cannot succeed. After any other error it is tried again. */
const FINAL: readonly WireError[] = ["malformed", "tooLarge", "pinNeeded", "noSuchSession"];

/** Returns whether a socket's error ends the command: the panel then tells the person and does not try again. */
export function isFinal(error: WireError): boolean {
  return FINAL.includes(error);
}

import type { Action } from "../../shared/protocol/commands.ts";
import type { CommandResult, Refusal } from "../../shared/protocol/refusal.ts";
import type { WireError } from "../../shared/protocol/wire.ts";
import type { Outbox } from "../../shared/replica/outbox.ts";

/** The state of a message this person sent. */
export type SendStatus =
  | { is: "sending"; tries: number }
  | { is: "recorded"; seq: number }
  | { is: "refused"; refusal: Refusal }
  /** Expired before it was answered; the person decides what to do. */
  | { is: "lapsed"; tries: number }
  | { is: "failed"; error: WireError };

/** A message this person sent. */
export interface Outgoing {
  id: string;
  session: string;
  action: Action;
  /** Panel clock when the person acted, milliseconds. */
  at: number;
  status: SendStatus;
}

/** More than the figures that one send of a pad holds. */
const KEPT = 14;

/** Adds a result and keeps the last few of each session. */
export function withOutcome(outcomes: readonly Outgoing[], done: Outgoing): Outgoing[] {
  const others = outcomes.filter((o) => o.session !== done.session);
  const same = outcomes.filter((o) => o.session === done.session && o.id !== done.id);
  return [...others, ...[...same, done].slice(-KEPT)];
}

export function statusOf(result: CommandResult): SendStatus {
  if (result.status === "accepted") return { is: "recorded", seq: result.seq };
  if (result.status === "refused") return { is: "refused", refusal: result.refusal };
  return result.refusal ? { is: "refused", refusal: result.refusal } : { is: "recorded", seq: result.seq };
}

/** Returns unsent messages of this session and recent results, newest first. */
export function outgoingOf(
  outbox: Outbox,
  outcomes: readonly Outgoing[],
  session: string,
  serverNow: number | null,
): Outgoing[] {
  const waiting = outbox
    .filter((e) => e.command.session === session)
    .map((e): Outgoing => {
      const until = e.command.validUntil;
      const past = e.lapsed || (until !== undefined && serverNow !== null && serverNow >= until);
      return {
        id: e.command.id,
        session,
        action: e.command.action,
        at: e.command.clientAt,
        status: past ? { is: "lapsed", tries: e.tries } : { is: "sending", tries: e.tries },
      };
    });
  const settled = outcomes.filter((o) => o.session === session);
  return [...settled, ...waiting].sort((a, b) => b.at - a.at);
}

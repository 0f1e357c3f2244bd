import type { Ask } from "../../../shared/asks/ask.ts";
import { engineStands } from "../../../shared/models/facing.ts";
import { SIGNAL_KINDS, type SignalKind } from "../../../shared/protocol/signals.ts";
import { signalOf } from "../../../shared/signals/all.ts";
import type { HandForm } from "../../ui/figures/SignalFigure.tsx";

/**
 * Returns the hand signal to draw for an ask: the one its sender gives, else the one this person would give with the
 * first answer that has a standard form. Null when there is none.
 */
export function askHand(ask: Ask, engines: number): HandForm | null {
  const side = ask.engine === null ? null : engineStands(ask.engine, engines).side;
  const seen = SIGNAL_KINDS.find((k) => ask.say === `answer.${k}`);
  if (seen) return signalOf(seen).standard ? { kind: seen, engine: ask.engine, side, given: "toYou" } : null;
  const sent = ask.choices
    .flatMap((c): SignalKind[] => (c.draft.type === "send" ? [c.draft.kind] : []))
    .find((k) => signalOf(k).standard !== null);
  return sent ? { kind: sent, engine: ask.engine, side, given: "byYou" } : null;
}

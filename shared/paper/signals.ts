import { handSignal } from "../handSignals/all.ts";
import { SIGNAL_KINDS, type SignalKind } from "../protocol/signals.ts";
import { signalOf } from "../signals/all.ts";
import { briefWords } from "../words/brief.ts";
import { citedIn } from "../words/citations.ts";
import { signalWords } from "../words/handSignals.ts";
import { wordsOf } from "../words/piece.ts";
import type { Say } from "../words/say.ts";

/** One message with a standard hand form: its giver and receiver, how the hand form is made, and the source. */
export interface SignalRow {
  kind: SignalKind;
  words: string;
  from: string;
  to: string;
  /** Key of its figure among the hand signals. */
  figure: string;
  movement: string;
  standard: string;
}

/** Returns every message that can be given by hand, in the order of the registry of signals. */
export function signalRows(say: Say): SignalRow[] {
  const words = briefWords(say.language);
  return SIGNAL_KINDS.flatMap((kind): SignalRow[] => {
    const { from, to, standard } = signalOf(kind);
    if (!standard) return [];
    return [
      {
        kind,
        words: say.signal(kind, null),
        from: from === "anyone" ? words.anyone : from.map(say.post).join(", "),
        to:
          from === "anyone"
            ? words.everybody
            : to(from[0] ?? null)
                .map(say.post)
                .join(", "),
        figure: standard.figure,
        movement: signalWords(handSignal(standard.figure), say.language).movement,
        standard: wordsOf(citedIn(say.language)(standard.text)),
      },
    ];
  });
}

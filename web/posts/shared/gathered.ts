import type { Ask } from "../../../shared/asks/ask.ts";
import { CHECK_ITEMS, type RunUpCheck } from "../../../shared/runUp/checkItems.ts";
import type { AskView } from "../../ui/askView.ts";
import type { PadId } from "../../ui/padId.ts";
import type { Words } from "../../words/catalogue.ts";

/** Returns the pad that takes the figure of an ask; null for an ask of another kind. */
export function padOf({ say, choices: [first] }: Pick<Ask, "say" | "choices">): PadId | null {
  const draft = first?.draft;
  if (say === "warmUp") return "warmUp";
  if (say !== "runUp" && say !== "runUp.plain") return null;
  if (draft?.type !== "recordRunUp") return "gauges";
  const { item } = draft;
  const checks = Object.keys(CHECK_ITEMS) as RunUpCheck[];
  return checks.find((c) => (CHECK_ITEMS[c] as readonly string[]).includes(item)) ?? null;
}

/** Returns the asks with those of one pad together, in the place of the first of them. */
export function gathered(
  asks: readonly { ask: Ask; view: AskView }[],
  { text }: Pick<Words, "text">,
): AskView[] {
  const pads = new Map<PadId, AskView>();
  return asks.flatMap(({ ask, view }) => {
    const id = padOf(ask);
    if (id === null) return [view];
    const pad = pads.get(id);
    if (pad) {
      pad.answers.push(...view.answers);
      return [];
    }
    const begun: AskView = {
      ...view,
      key: `pad:${id}`,
      sentence: text.ask.pads[id],
      engine: null,
      place: null,
      hand: null,
      answers: [...view.answers],
      pad: id,
    };
    pads.set(id, begun);
    return [begun];
  });
}

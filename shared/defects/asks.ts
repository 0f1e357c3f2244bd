import { type Ask, ask, choice } from "../asks/ask.ts";
import { isNextFree, nextInOrder } from "../engine/nextInOrder.ts";
import { oilAlertStands } from "../engine/oilUnknown.ts";
import type { SessionState } from "../session/state.ts";
import { barringDefects } from "./barring.ts";

/**
 * Defects that bar the next engine are closed by the supervisor, with what was found, once no drill of its oil is open.
 * One that is mended is not asked for: somebody else inspects it, on the aircraft's page.
 */
export function barringDefectAsks(state: SessionState, now: number): Ask[] {
  const n = isNextFree(state) ? nextInOrder(state) : null;
  if (n === null || !state.type.conditions.includes("noBarringDefect") || oilAlertStands(state, n)) return [];
  const open = barringDefects(state, n, now).filter((d) => d.mended === undefined);
  return open.map((d) =>
    ask({
      key: `defect:${d.id}`,
      say: "barringDefect",
      weight: 4,
      engine: n,
      since: d.by.at,
      detail: { is: "defect", words: d.words },
      choices: [
        choice(
          "closeDefect",
          "plain",
          { type: "closeDefect", defect: d.id },
          { is: "words", field: "reason" },
        ),
      ],
    }),
  );
}

import { isCalledFor } from "../card/case.ts";
import { answerAt, placesAt } from "../card/places.ts";
import type { ReportedCondition } from "./definition.ts";
import { NOBODY_SAID, reportedNo } from "./finding.ts";

/** The card's items on which a clearance stands are answered: those before any start, and those before this engine. */
export const cardAnswered: ReportedCondition<"cardAnswered"> = {
  id: "cardAnswered",
  owners: ["cockpit"],
  scope: { clearance: "ifListed" },
  freshness: null,
  mayBeSetAside: true,
  askedBefore: true,
  find(state, engine, now) {
    const places = [
      ...placesAt(state.type, "beforeStart", null),
      ...placesAt(state.type, "beforeEngine", engine),
    ];
    const stands = places.filter((p) => p.item.clearance && isCalledFor(state, p, now));
    const answers = stands.map((p) => answerAt(state, p));
    const bad = answers.find((a) => a?.good === false);
    if (bad) return reportedNo(bad.by);
    const open = answers.filter((a) => a === null).length;
    if (open > 0) return { ...NOBODY_SAID, found: `${answers.length - open} of ${answers.length}` };
    const last = answers
      .flatMap((a) => a?.by ?? [])
      .sort((a, b) => a.at - b.at)
      .at(-1);
    if (!last) return { is: "yes", at: null, by: null, until: null };
    return { is: "yes", at: last.at, by: { post: last.post, name: last.name }, until: null };
  },
};

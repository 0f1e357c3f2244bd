import type { Figuring } from "../../ui/figuring.ts";
import { figureSpec } from "./figures.ts";
import { foreseenWords } from "./foreseenWords.ts";
import type { Panel } from "./model.ts";
import { outcomeOf, padView } from "./padView.ts";

/** Returns what the entry of a figure needs, for this panel now. */
export const figuringOf = (panel: Panel): Omit<Figuring, "kept" | "way" | "onWay"> => ({
  spec: (choice) => figureSpec(panel.state, choice, panel.now, panel.words),
  follows: (action) => foreseenWords(panel, action),
  pad: ({ pad, answers }) => (pad ? padView(panel, pad, answers) : null),
  outcome: (sent) => outcomeOf(panel, sent),
});

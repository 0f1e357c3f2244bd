import type { Figuring } from "../../ui/figuring.ts";
import { figureSpec } from "./figures.ts";
import { foreseenWords } from "./foreseenWords.ts";
import type { Panel } from "./model.ts";

/** Returns what the entry of a figure needs, for this panel now. */
export const figuringOf = (panel: Panel): Figuring => ({
  spec: (choice) => figureSpec(panel.state, choice, panel.now, panel.words),
  follows: (action) => foreseenWords(panel, action),
});

import { createContext, useContext } from "react";
import type { Offer } from "../../shared/asks/ask.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import type { AskView } from "./askView.ts";
import type { FigureSpec } from "./figureSpec.ts";
import type { PadEntry } from "./padEntry.ts";
import type { Outcome, PadView } from "./padView.ts";

/** The way in which figures are entered on this device: digit by digit, or in steps. */
export type FigureWay = "digits" | "steps";

/** The parts of the session that the entry of a figure needs. They are null until their code has loaded. */
export interface Figuring {
  /** Returns the scale, the bands and the last reading for a choice that needs a figure; null for any other. */
  spec(choice: Offer): FigureSpec | null;
  /** Returns what an action would set off, one sentence each. */
  follows(action: Action): readonly string[] | null;
  /** Returns the figures of an ask that a pad takes. */
  pad(ask: AskView): PadView | null;
  /** Returns what became of a figure that was sent, by its command's id; null when this device no longer knows. */
  outcome(sent: string): Outcome | null;
  /** Entries in pads that are not sent yet, by the ask's key. It outlives an ask that comes in front. */
  kept: Map<string, PadEntry>;
  way: FigureWay;
  onWay(way: FigureWay): void;
}

export const NO_FIGURING: Figuring = {
  spec: () => null,
  follows: () => null,
  pad: () => null,
  outcome: () => null,
  kept: new Map(),
  way: "steps",
  onWay() {},
};

export const FiguringContext = createContext<Figuring>(NO_FIGURING);

export const useFiguring = (): Figuring => useContext(FiguringContext);

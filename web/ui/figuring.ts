import { createContext, useContext } from "react";
import type { Offer } from "../../shared/asks/ask.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import type { FigureSpec } from "./figureSpec.ts";

/** The parts of the session that the entry of a figure needs. Both are null until their code has loaded. */
export interface Figuring {
  /** Returns the scale, the bands and the last reading for a choice that needs a figure; null for any other. */
  spec(choice: Offer): FigureSpec | null;
  /** Returns what an action would set off, one sentence each. */
  follows(action: Action): readonly string[] | null;
}

export const FiguringContext = createContext<Figuring>({ spec: () => null, follows: () => null });

export const useFiguring = (): Figuring => useContext(FiguringContext);

import type { AnswerKey } from "./askView.ts";
import type { FigureSpec } from "./figureSpec.ts";

/** One figure of a pad: an engine's, or the aircraft's. */
export interface PadCell {
  id: string;
  /** Null for the aircraft. */
  engine: number | null;
  /** The answer that sends it; null when it is read and not asked for now. */
  answer: AnswerKey | null;
  spec: FigureSpec;
}

export interface PadRow {
  id: string;
  /** The gauge or the figure, without the engine. */
  label: string;
  /** The crew sets this figure alike on every engine, so one touch may enter it for all. */
  setAlike: boolean;
  /** The row whose figure of the same engine this one is compared with; null for none. */
  against: string | null;
  cells: readonly PadCell[];
}

/** Figures that are read together, one row for each gauge and one column for each engine. */
export interface PadView {
  /** Engine numbers of the columns, as this person sees them. */
  engines: readonly number[];
  rows: readonly PadRow[];
  /** True when one engine is finished before the next, false when one gauge is read across all engines. */
  byEngine: boolean;
  /** The check that failed and is read again, and the key that writes it up as a defect instead. */
  faults: readonly { words: string; defect: AnswerKey }[];
}

/** The outcome of a figure that was sent. */
export type Outcome = { is: "sending" } | { is: "recorded" } | { is: "not"; words: string };

import type { RunUpCheck } from "../../shared/runUp/checkItems.ts";

/** Figures that a row of engines is read for one after another, and that one pad takes together. */
export type PadId = "warmUp" | RunUpCheck | "gauges";

import { type FigureSpec, isGood, onScale } from "./figureSpec.ts";

/** A figure while it is entered. It starts blank: nothing is recorded that the person did not enter. */
export interface Entered {
  value: number | null;
  /** True while the person is asked whether a figure is to be sent that would set something off. */
  asking: boolean;
}

export const BLANK: Entered = { value: null, asking: false };

export const entered = (spec: FigureSpec, value: number): Entered => ({
  value: onScale(spec, value),
  asking: false,
});

/** Returns the entry after step keys. A blank entry steps from the figure that its scale suggests. */
export const stepped = (spec: FigureSpec, { value }: Entered, steps: number): Entered =>
  entered(spec, (value ?? spec.start) + steps * spec.step);

/**
 * Returns true when the person is asked once more before the figure is sent: it would set something off, or it is
 * outside its band while what follows is not known. The server itself delays or refuses no such report.
 */
export function asksFirst(
  spec: FigureSpec,
  { value, asking }: Entered,
  follows: readonly string[] | null,
): boolean {
  if (value === null || asking) return false;
  return follows === null ? !isGood(spec, value) : follows.length > 0;
}

import { type FigureSpec, isGood, onScale } from "./figureSpec.ts";
import { type DigitKey, figureTyped, type Typed, typedWith } from "./typedFigure.ts";

/** A figure while it is entered. It starts blank: nothing is recorded that the person did not enter. */
export interface Entered {
  value: number | null;
  /** True while the person is asked whether a figure is to be sent that would set something off. */
  asking: boolean;
  /** The digits as they are typed; null for a figure that was not typed. */
  typed: Typed | null;
}

export const BLANK: Entered = { value: null, asking: false, typed: null };

export const entered = (spec: FigureSpec, value: number): Entered => ({
  value: onScale(spec, value),
  asking: false,
  typed: null,
});

/** Returns the entry after a digit key. A figure that was entered otherwise is replaced, unless a digit is deleted. */
export function typed(spec: FigureSpec, { value, typed: before }: Entered, key: DigitKey): Entered {
  const from = before ?? (key === "back" && value !== null ? String(value) : "");
  const digits = typedWith(spec, from, key);
  return { value: figureTyped(digits), asking: false, typed: digits === "" ? null : digits };
}

/** Returns the entry after step keys. A blank entry steps from the figure that its scale suggests. */
export const stepped = (spec: FigureSpec, { value }: Pick<Entered, "value">, steps: number): Entered =>
  entered(spec, (value ?? spec.start) + steps * spec.step);

/**
 * Returns true when the person is asked once more before the figure is sent: it would set something off, or it is
 * outside its band while what follows is not known. The server itself delays or refuses no such report.
 */
export function asksFirst(
  spec: FigureSpec,
  { value, asking }: Pick<Entered, "value" | "asking">,
  follows: readonly string[] | null,
): boolean {
  if (value === null || asking) return false;
  return follows === null ? !isGood(spec, value) : follows.length > 0;
}

import type { FigureSpec } from "./figureSpec.ts";
import { figure } from "./numbers.ts";

/** A figure as it is typed: digits, at most one point, and a sign in front. */
export type Typed = string;

/** Keys beside the ten digits. */
export type DigitKey = "0" | "1" | "2" | "3" | "4" | "5" | "6" | "7" | "8" | "9" | "." | "±" | "back";

type Scale = Pick<FigureSpec, "from" | "to" | "step">;

/** Returns the number of decimals that the instrument shows. */
export const decimalsOf = ({ step }: Pick<Scale, "step">): number =>
  figure(0, step).split(".")[1]?.length ?? 0;

const POINT = /\.(\d*)/;

/** Returns what is typed after one more key. A key that the instrument has no use for changes nothing. */
export function typedWith(scale: Scale, typed: Typed, key: DigitKey): Typed {
  switch (key) {
    case "back":
      return typed.slice(0, -1);
    case "±":
      if (scale.from >= 0) return typed;
      return typed.startsWith("-") ? typed.slice(1) : `-${typed}`;
    case ".":
      return decimalsOf(scale) === 0 || typed.includes(".") ? typed : `${typed || "0"}.`;
    default: {
      const decimals = POINT.exec(typed)?.[1];
      if (decimals !== undefined && decimals.length >= decimalsOf(scale)) return typed;
      const next = `${typed === "0" ? "" : typed}${key}`;
      return Math.abs(Number(next)) > Math.max(Math.abs(scale.from), Math.abs(scale.to)) ? typed : next;
    }
  }
}

/** Returns the figure that is typed; null while it is none. */
export function figureTyped(typed: Typed): number | null {
  if (!/\d/.test(typed)) return null;
  const value = Number(typed);
  return Number.isFinite(value) ? value : null;
}

export const onTheScale = ({ from, to }: Pick<Scale, "from" | "to">, value: number): boolean =>
  value >= from && value <= to;

/** Returns true when no further digit can follow, so that the entry may go on to the next figure by itself. */
export function isWhole(scale: Scale, typed: Typed): boolean {
  const value = figureTyped(typed);
  if (value === null || !onTheScale(scale, value)) return false;
  const decimals = POINT.exec(typed)?.[1];
  if (decimals !== undefined) return decimals.length >= decimalsOf(scale) && decimals.length > 0;
  // A point may still follow where the instrument shows decimals.
  return (
    decimalsOf(scale) === 0 && value !== 0 && Math.abs(value) * 10 > Math.max(Math.abs(scale.from), scale.to)
  );
}

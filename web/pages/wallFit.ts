import { type RefObject, useLayoutEffect, useRef, useState } from "react";

/** Smallest and largest font size of the aircraft on the board, CSS pixels. */
const LEAST_PX = 16;
const MOST_PX = 240;
const MOST_COLUMNS = 3;
/** Font sizes closer than this are the same, CSS pixels. */
const NEAR_PX = 0.5;

interface Fit {
  list: RefObject<HTMLUListElement | null>;
  /** Aircraft that do not fit even at the smallest size; they are not drawn. */
  hidden: number;
  /** Font size of the aircraft, CSS pixels; null where the list scrolls in the hand. */
  px: number | null;
}

/**
 * Gives the rows of a list the largest font with which all of them fit, in the number of columns that allows it. Measures
 * again when `shape` or the size of the list changes. A list that scrolls by its style keeps the style's size.
 *
 * @param shape what decides the space that the rows need; it must not change every second
 */
export function useWallFit(shape: string): Fit {
  const list = useRef<HTMLUListElement>(null);
  const [fit, setFit] = useState<Omit<Fit, "list">>({ hidden: 0, px: null });
  // biome-ignore lint/correctness/useExhaustiveDependencies: measure again when the rows change
  useLayoutEffect(() => {
    const ul = list.current;
    if (!ul) return;
    let room = "";
    const measure = () => {
      room = roomOf(ul);
      setFit(fitted(ul));
    };
    // Measure before anything is painted, so that no row is seen at the size of the rows before.
    measure();
    // An observer always reports once at its start.
    const seen = new ResizeObserver(() => room !== roomOf(ul) && measure());
    seen.observe(ul);
    let wanted = true;
    void document.fonts.ready.then(() => wanted && measure());
    return () => {
      wanted = false;
      seen.disconnect();
    };
  }, [shape]);
  return { list, ...fit };
}

const roomOf = (ul: HTMLElement) => `${ul.clientWidth} ${ul.clientHeight}`;

function fitted(ul: HTMLUListElement): Omit<Fit, "list"> {
  const rows = [...ul.children] as HTMLElement[];
  for (const row of rows) row.style.visibility = "";
  ul.style.fontSize = "";
  ul.style.setProperty("--columns", "1");
  if (getComputedStyle(ul).overflowY === "auto") return { hidden: 0, px: null };
  let best = { px: LEAST_PX, columns: 1 };
  for (let columns = 1; columns <= Math.min(MOST_COLUMNS, rows.length); columns += 1) {
    const px = largest(ul, columns);
    if (px > best.px + NEAR_PX) best = { px, columns };
  }
  draw(ul, best.px, best.columns);
  let hidden = 0;
  if (!fits(ul)) {
    const foot = ul.getBoundingClientRect().bottom + 1;
    for (const row of rows) {
      if (row.getBoundingClientRect().bottom <= foot) continue;
      row.style.visibility = "hidden";
      hidden += 1;
    }
  }
  return { hidden, px: best.px };
}

/** Returns the largest font size with which every row fits, or 0 when none does. */
function largest(ul: HTMLUListElement, columns: number): number {
  let [low, high] = [LEAST_PX, MOST_PX];
  draw(ul, low, columns);
  if (!fits(ul)) return 0;
  while (high - low > NEAR_PX) {
    const middle = (low + high) / 2;
    draw(ul, middle, columns);
    if (fits(ul)) low = middle;
    else high = middle;
  }
  draw(ul, low, columns);
  return low;
}

function draw(ul: HTMLUListElement, px: number, columns: number): void {
  ul.style.fontSize = `${px}px`;
  ul.style.setProperty("--columns", String(columns));
}

function fits(ul: HTMLUListElement): boolean {
  const within = (e: Element) => e.scrollWidth <= e.clientWidth && e.scrollHeight <= e.clientHeight + 1;
  return within(ul) && [...ul.children].every(within);
}

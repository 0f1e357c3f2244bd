/**
 * How large a millimetre is on this device's screen, in CSS pixels. A browser cannot know: it takes 96 pixels to the
 * inch everywhere. Who holds a card to the screen can. /first.js sets what was kept before anything is drawn.
 */
const KEY = "chockside.mm";

/** What browsers take it for. */
export const USUAL_MM = 96 / 25.4;

/** From a large screen on a wall to the finest telephone; what lies outside was a slip of the hand. */
const LEAST = 1.5;
const MOST = 8;

export const boundedMm = (mm: number): number => Math.min(MOST, Math.max(LEAST, Math.round(mm * 100) / 100));

export function keptMm(): number {
  const kept = Number.parseFloat(document.documentElement.style.getPropertyValue("--mm-here"));
  return Number.isFinite(kept) ? kept : USUAL_MM;
}

/** Draws everything to this measure from now on; null is the browser's own. A device that keeps nothing loses it. */
export function keepMm(mm: number | null): void {
  const { style } = document.documentElement;
  if (mm === null) style.removeProperty("--mm-here");
  else style.setProperty("--mm-here", `${mm}px`);
  try {
    if (mm === null) localStorage.removeItem(KEY);
    else localStorage.setItem(KEY, String(mm));
  } catch {
    // It lasts as long as the page.
  }
}

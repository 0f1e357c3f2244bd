/**
 * The length of a millimetre on this device's screen, in CSS pixels. A browser does not know it and assumes 96 pixels
 * to the inch. A person finds it by holding a card to the screen. /first.js applies the stored value before the first
 * paint.
 */
const KEY = "chockside.mm";

/** CSS pixels per millimetre as browsers assume. */
export const USUAL_MM = 96 / 25.4;

/** Bounds from a large wall screen to the finest telephone; a value outside is an input error. */
const LEAST = 1.5;
const MOST = 8;

export const boundedMm = (mm: number): number => Math.min(MOST, Math.max(LEAST, Math.round(mm * 100) / 100));

export function keptMm(): number {
  const kept = Number.parseFloat(document.documentElement.style.getPropertyValue("--mm-here"));
  return Number.isFinite(kept) ? kept : USUAL_MM;
}

/**
 * Sets and stores the length of a millimetre; null returns to the browser's assumption. Without storage it is lost at
 * a reload.
 */
export function keepMm(mm: number | null): void {
  const { style } = document.documentElement;
  if (mm === null) style.removeProperty("--mm-here");
  else style.setProperty("--mm-here", `${mm}px`);
  try {
    if (mm === null) localStorage.removeItem(KEY);
    else localStorage.setItem(KEY, String(mm));
  } catch {
    // Without storage the value lasts until the page closes.
  }
}

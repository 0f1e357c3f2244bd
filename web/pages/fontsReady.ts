import { useEffect, useState } from "react";

/** Longest wait for a font, milliseconds: then words are better read in another one. */
const WAIT_MS = 2_000;

/**
 * Returns true once the fonts that the page uses have come, and `font` with them, or after two seconds. Words that are
 * sized by their measure wait for it, because they would move when their own font came.
 * @param font CSS shorthand of a font that the page has not used yet
 */
export function useFontsReady(font: string): boolean {
  const [ready, setReady] = useState(false);
  useEffect(() => {
    const is = () => setReady(true);
    const late = setTimeout(is, WAIT_MS);
    document.fonts
      .load(font)
      .then(() => document.fonts.ready)
      .then(is, is);
    return () => clearTimeout(late);
  }, [font]);
  return ready;
}

import type { Page } from "playwright-core";
import { englishFinder } from "../words/englishWords.ts";

const find = await englishFinder();
/** Kept between pages, because most texts are on many of them. */
const found = new Map<string, string[]>();

function englishIn(text: string): string[] {
  const before = found.get(text);
  if (before) return before;
  const words = find(text);
  found.set(text, words);
  return words;
}

/**
 * Returns the English words that the page shows, reads aloud or asks for, each with its text. Text marked as English, or
 * as entered in an unknown language, is left out.
 * @param written texts that somebody entered during the test
 */
export async function englishOn(page: Page, written: readonly string[] = []): Promise<string[]> {
  const said = await page.evaluate(() => {
    const all = new Set<string>([document.title]);
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_ELEMENT | NodeFilter.SHOW_TEXT);
    for (let node = walk.nextNode(); node; node = walk.nextNode()) {
      const element = node instanceof Element ? node : node.parentElement;
      if (element?.closest("[lang=en], [lang=und], noscript, script, style")) continue;
      if (node instanceof Element)
        for (const name of [
          "aria-label",
          "aria-description",
          "aria-valuetext",
          "placeholder",
          "title",
          "alt",
        ])
          all.add(node.getAttribute(name) ?? "");
      else all.add(node.textContent?.trim() ?? "");
    }
    return [...all];
  });
  const ours = said.map((s) => written.reduce((t, w) => t.replaceAll(w, " "), s));
  return ours.flatMap((s) => englishIn(s).map((word) => `${word}: ${s.slice(0, 120)}`));
}

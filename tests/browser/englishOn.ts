import type { Page } from "playwright-core";
import { englishFinder } from "../words/englishWords.ts";

const find = await englishFinder();
/** Most texts stand on many pages. */
const found = new Map<string, string[]>();

function englishIn(text: string): string[] {
  const before = found.get(text);
  if (before) return before;
  const words = find(text);
  found.set(text, words);
  return words;
}

/**
 * English words that stand on the page, are read aloud or are asked for, each with where. What is marked as English is
 * not looked at.
 * @param written what somebody wrote during the test
 */
export async function englishOn(page: Page, written: readonly string[] = []): Promise<string[]> {
  const said = await page.evaluate(() => {
    const all = new Set<string>([document.title]);
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_ELEMENT | NodeFilter.SHOW_TEXT);
    for (let node = walk.nextNode(); node; node = walk.nextNode()) {
      const element = node instanceof Element ? node : node.parentElement;
      if (element?.closest("[lang=en], noscript, script, style")) continue;
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

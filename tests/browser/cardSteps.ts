import { errors, type Page } from "playwright-core";
import { demo } from "../../seed/demo-data.ts";

/** The words of every item of the demo's cards, in each language. */
const ITEMS = demo.types.flatMap((t) => t.card ?? []).flatMap((i) => [i.words, i.wordsEs ?? i.words]);

/** A panel keeps a figure and its unit together with a space that does not break. */
const escaped = (words: string) => words.replace(/[.*+?^${}()|[\]\\]/g, "\\$&").replaceAll(" ", "\\s");

/** The sentence that asks for one item, at one engine or of the whole aircraft. */
const CARD_ASK = new RegExp(`^((Number|Motor)\\s\\d: )?(${[...new Set(ITEMS)].map(escaped).join("|")})$`);

/** Keys that answer an item well, in each language. */
const GOOD = /^(Done|Alive|Enter reading|Hecho|Vivo|Anotar lectura)$/;

/** Returns the ask for an item of the card that stands in front. */
export const cardInFront = (page: Page) =>
  page.locator(".ask").filter({ has: page.locator("h2", { hasText: CARD_ASK }) });

/** Returns the row of the queue in which an item of the card waits. */
export const cardQueued = (page: Page) =>
  page
    .locator(".queue-row")
    .filter({ has: page.locator("span", { hasText: CARD_ASK }) })
    .first();

/**
 * Answers the item of the card that stands in front: done, alive, or the figure from which its entry begins. Returns
 * when another ask stands there, or when this one was taken from under the finger by a more pressing one.
 * @param kept the words of an ask that is left as it is
 */
export async function answerCardInFront(page: Page, patience: number, kept = ""): Promise<void> {
  try {
    // Another ask may have come to the front since somebody looked.
    const words = await cardInFront(page).locator("h2").textContent({ timeout: patience });
    if (words?.replace(/\s/g, " ") === kept) return;
    const ask = page
      .locator(".ask")
      .filter({ has: page.getByRole("heading", { level: 2, name: words ?? "", exact: true }) });
    const key = ask.getByRole("button", { name: GOOD });
    const isFigure = /^(Enter|Anotar)/.test((await key.textContent({ timeout: patience })) ?? "");
    await key.click({ timeout: patience });
    if (isFigure) {
      // One step up and one down: a blank entry takes no figure by itself.
      for (const i of [2, 1]) await ask.locator(".step-key").nth(i).click({ timeout: patience });
      await ask.locator(".entry .answer[data-tone=yes]").click({ timeout: patience });
    }
    await ask.waitFor({ state: "detached", timeout: patience });
  } catch (error) {
    if (!(error instanceof errors.TimeoutError)) throw error;
  }
}

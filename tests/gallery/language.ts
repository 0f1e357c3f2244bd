import type { Page } from "playwright-core";
import type { Language } from "../../shared/words/language.ts";

/** Stores a person's choice of language: the next page is in it. */
export async function choose(page: Page, language: Language): Promise<void> {
  await page.evaluate((l) => {
    const { person } = JSON.parse(sessionStorage.getItem("chockside.signIn") ?? "{}");
    localStorage.setItem(`chockside.language.${person.id}`, l);
  }, language);
}

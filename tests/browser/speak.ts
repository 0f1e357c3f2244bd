import type { Page } from "playwright-core";

/** Shows a panel in another language: the person's choice is stored, and the page is loaded again. */
export async function speak(page: Page, language: "en" | "es"): Promise<void> {
  await page.evaluate((l) => {
    const { person } = JSON.parse(sessionStorage.getItem("chockside.signIn") ?? "{}");
    localStorage.setItem(`chockside.language.${person.id}`, l);
  }, language);
  await page.reload();
  await page.locator(".panel .plan").waitFor();
}

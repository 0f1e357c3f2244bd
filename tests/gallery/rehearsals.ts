import type { Browser, Page } from "playwright-core";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { LANGUAGES, type Language } from "../../shared/words/language.ts";
import { rehearsal as english } from "../../web/words/en/rehearsal.ts";
import { scripts as englishScripts } from "../../web/words/en/scripts.ts";
import { rehearsal as spanish } from "../../web/words/es/rehearsal.ts";
import { scripts as spanishScripts } from "../../web/words/es/scripts.ts";
import { Seat } from "../browser/seat.ts";
import type { Camera } from "./camera.ts";
import { choose } from "./language.ts";

const WORDS = { en: english, es: spanish };
const SCRIPTS = { en: englishScripts, es: spanishScripts };

/** A busy server lets a rehearsal run slowly, so its list of moments is looked at many times. Milliseconds. */
const LOOK_MS = 2_000;
const LOOKS = 120;

/** Photographs every page of rehearsals: where one begins, the editor, cockpit, guard, desk, debrief and training. */
export async function photographRehearsals(browser: Browser, url: string, camera: Camera): Promise<void> {
  for (const language of LANGUAGES) {
    const seat = await Seat.open(browser, url, "merryn");
    await choose(seat.page, language);
    await inLanguage(seat, url, language, camera);
    await seat.context.close();
    await atPost(browser, url, language, camera, "austol", "cockpit");
    await atPost(browser, url, language, camera, "cador", "fireGuard");
  }
}

/** Ends the page's rehearsal by the server's own route: a post has no key for it. */
async function endAsInstructor(page: Page): Promise<void> {
  const status = await page.evaluate(async () => {
    const { token } = JSON.parse(sessionStorage.getItem("chockside.signIn") ?? "{}");
    const path = `/api/rehearsals/${location.pathname.split("/")[2]}`;
    return (await fetch(path, { method: "DELETE", headers: { authorization: `Bearer ${token}` } })).status;
  });
  if (status !== 204) throw new Error(`the rehearsal was not ended: ${status}`);
}

/** Opens the list of moments to go back to, anew until it holds one: it is read when it is opened. */
async function somethingHappened(page: Page, title: string): Promise<void> {
  const back = page.locator(".rehearsal-desk details").filter({ hasText: title });
  for (let look = 0; look < LOOKS; look += 1) {
    await back.locator("summary").click();
    const opened = await back
      .locator("ol button")
      .first()
      .waitFor({ timeout: LOOK_MS })
      .then(() => true)
      .catch(() => false);
    if (opened) return;
    await back.locator("summary").click();
  }
  throw new Error("nothing happened in the rehearsal");
}

/** Photographs one post of a rehearsal, by a person of their own: nobody holds two posts. */
async function atPost(
  browser: Browser,
  url: string,
  language: Language,
  camera: Camera,
  who: string,
  post: Post,
): Promise<void> {
  const { page, context } = await Seat.open(browser, url, who);
  await choose(page, language);
  await page.goto(`${url}/rehearse`);
  await page.locator('.rehearsal-scripts [aria-pressed="true"]').waitFor();
  await page.locator(".option-keys .answer").nth(POSTS.indexOf(post)).click();
  await page.locator(`.panel[data-kind="${post}"]`).waitFor();
  await page.locator(".rehearsal-sees").waitFor();
  // The post's own link is known a little later than the post.
  const own = page.locator(".title-post[data-mine]");
  await own.filter({ hasNotText: /not connected|sin conexión/ }).waitFor();
  await camera.take(`A post of a rehearsal, ${language}`, post, page);
  // A rehearsal that goes on would keep its people from the next one.
  await endAsInstructor(page);
  if (post === "cockpit") {
    await page.goto(`${url}/people`);
    await page.locator(`[aria-label="${WORDS[language].ownTraining}"]`).waitFor();
    await camera.take(`Training, ${language}`, "Anybody", page, false, ".own:has(.device-rows)");
  }
  await context.close();
}

async function inLanguage(seat: Seat, url: string, language: Language, camera: Camera): Promise<void> {
  const { page } = seat;
  const [words, scripts] = [WORDS[language], SCRIPTS[language]];
  const take = (scene: string, whole = false, at?: string) =>
    camera.take(`${scene}, ${language}`, "Supervisor", page, whole, at);
  const rehearse = async () => {
    await page.goto(`${url}/rehearse`);
    await page.locator('.rehearsal-scripts [aria-pressed="true"]').waitFor();
  };
  const post = (n: number) => page.locator(".option-keys .answer").nth(n).click();
  await rehearse();
  await take("Rehearse", true);
  await seat.press(scripts.write);
  await seat.press(scripts.addFault);
  await seat.press(scripts.addFault);
  await page.locator('input[name="seconds 2"]').fill("");
  await page.locator('select[name="fault 1"]').selectOption("deadTablet");
  await take("A script in the editor", true);

  await rehearse();
  await post(4);
  await page.locator(".rehearsal-desk summary").first().click();
  await somethingHappened(page, words.goBack);
  await take("Instructor's desk");
  await take("Going back", false, ".rehearsal-desk details");
  const id = new URL(page.url()).pathname.split("/")[2] ?? "";
  await page.getByRole("button", { name: words.end }).click();
  await page.getByText(words.desk).waitFor({ state: "detached" });
  await page.goto(`${url}/session/${id}/record`);
  await page.locator(".debrief").waitFor();
  await take("Debrief", true);
}

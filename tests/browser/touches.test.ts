import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import type { Ask, Choice } from "../../shared/asks/ask.ts";
import { cardKey } from "../../shared/card/places.ts";
import { wholeCard } from "../../shared/card/whole.ts";
import { plain } from "../../shared/engine/life.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { say } from "../../shared/words/en.ts";
import { cardInFront, cardQueued } from "./cardSteps.ts";
import { signInCrew } from "./crew.ts";
import { Prompter } from "./prompter.ts";
import { openBrowser, type Seat } from "./seat.ts";
import { TestServer } from "./server.ts";

const server = new TestServer();
let browser: Browser;

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  await server.end();
});

/** Counts every touch of the page from now on. */
function countTouches({ page }: Seat): Promise<void> {
  return page.evaluate(() => {
    document.documentElement.dataset.touches = "0";
    const one = () => {
      const { dataset } = document.documentElement;
      dataset.touches = String(Number(dataset.touches) + 1);
    };
    addEventListener("pointerdown", one, { capture: true });
  });
}

const touches = async ({ page }: Seat) =>
  Number(await page.evaluate(() => document.documentElement.dataset.touches));

/** Answers with as few touches as the panel allows: a figure is touched on its instrument's scale. */
async function answer(seat: Seat, ask: Ask, { word, need }: Choice): Promise<void> {
  const sentence = say.ask(ask);
  await seat.asked(sentence);
  const box = seat.page.locator(".ask");
  await seat.press(say.choice(word, ask.engine), box);
  if (need?.is === "engine") await seat.press(`Engine number ${ask.engine}`, box);
  if (need?.is === "figure") {
    const band = await box.locator(".scale-band").boundingBox();
    if (!band) throw new Error(`${sentence}: the entry has no band`);
    await seat.page.mouse.click(band.x + band.width / 2, band.y + band.height / 2);
    await seat.press(/^Record /, box);
  }
  await seat.askedNoMore(sentence);
}

const isCranking = (state: SessionState) => state.engines.some((e) => plain(e.life).is === "cranking");

it("[CRD-14] [CRD-2] at the panel, four engines with a whole card take at most 60 touches, none of the card's while a starter is held", async () => {
  const crew = await signInCrew(browser, server.url);
  const { cockpit } = crew;
  const story = await Prompter.begin(crew, server, "QX-KES");
  await story.playUntil((s) => s.stage === "starting");
  await countTouches(cockpit);
  let before = 0;
  while (!story.state.engines.every((e) => plain(e.life).is === "stable")) {
    if (await story.playAnother("cockpit")) continue;
    const { state } = story;
    const ask = story.asked("cockpit").find((a) => a.choices.some((c) => c.tone === "yes"));
    const yes = ask?.choices.find((c) => c.tone === "yes");
    if (!ask || !yes) throw new Error(`nothing is asked of the cockpit: ${state.seq}`);
    if (ask.say === "readyToStart" && !state.engines.some((e) => e.attempts > 0))
      before = await touches(cockpit);
    if (isCranking(state)) {
      expect(ask.say).toBe("cranking");
      await cockpit.asked(say.ask(ask));
      expect([await cardInFront(cockpit.page).count(), await cardQueued(cockpit.page).count()]).toEqual([
        0, 0,
      ]);
    }
    await answer(cockpit, ask, yes);
    await story.until((s) => s.seq > state.seq);
  }
  const all = await touches(cockpit);
  console.info(`touches of the cockpit: ${before} before the first request, ${all - before} from it`);
  expect(all - before).toBeLessThanOrEqual(60);
  // A panel that asked for nothing would need few touches too.
  const { card = {} } = story.state;
  for (const { item, engine } of wholeCard(story.state, server.now()))
    if (item.moment === "beforeEngine" || item.moment === "caught")
      expect(card[cardKey(item.id, engine)]?.good, cardKey(item.id, engine)).toBe(true);
  expect(all - before).toBeGreaterThan(4 * 6);
  story.close();
});

import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import type { AskSay } from "../../shared/asks/askSay.ts";
import type { ChoiceWord } from "../../shared/asks/choiceWord.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { Stage } from "../../shared/protocol/stages.ts";
import { say } from "../../shared/words/en.ts";
import { say as spanishSay } from "../../shared/words/es.ts";
import type { Light } from "../../web/words/light.ts";
import { type Crew, seatAt } from "./crew.ts";
import { LONG_FORM } from "./longForm.ts";
import { axeFaults, drawnFaults, layoutFaults } from "./measure.ts";
import { Prompter } from "./prompter.ts";
import { KEEPS_NOTHING, openBrowser, Seat } from "./seat.ts";
import { TestServer } from "./server.ts";

const SIZES = {
  phone: { width: 390, height: 844 },
  tablet: { width: 820, height: 1180 },
  desktop: { width: 1600, height: 1000 },
} as const;
const SAY = { en: say, es: spanishSay } as const;

type Row = readonly [size: keyof typeof SIZES, light: Light, language: keyof typeof SAY];

/** Every pair of a size and a light, a size and a language, and a light and a language is in at least one row. */
const ROWS: readonly Row[] = [
  ["phone", "night", "en"],
  ["phone", "indoor", "es"],
  ["tablet", "sun", "es"],
  ["desktop", "indoor", "es"],
  ["phone", "sun", "en"],
  ["tablet", "indoor", "en"],
  ["tablet", "night", "es"],
  ["desktop", "sun", "en"],
  ["desktop", "night", "en"],
];
const HANDLES: Readonly<Record<Post, string>> = {
  cockpit: "austol",
  fireGuard: "cador",
  groundPower: "lowen",
  supervisor: "merryn",
};
/** Each run seats its four posts in four rows; three runs use every row. The first has every size, light and language. */
const RUNS = [0, 1, 2].map(
  (run) =>
    Object.fromEntries(
      POSTS.map((post, i) => [post, ROWS[(run * POSTS.length + i) % ROWS.length] as Row]),
    ) as Record<Post, Row>,
);

const N = 2;
const server = new TestServer({
  aircraft: RUNS.map((_, i) => ({ id: `QX-W${i}`, name: `Wren ${i}`, typeId: "penhale-twin" })),
});
let browser: Browser;

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  await server.end();
});

async function seated(post: Post, [size, light, language]: Row): Promise<Seat> {
  const context = await browser.newContext({
    viewport: SIZES[size],
    locale: language === "es" ? "es-CO" : "en-GB",
    ...KEEPS_NOTHING,
  });
  await context.addInitScript((kept) => localStorage.setItem("chockside.light", kept), light);
  return Seat.inContext(context, server.url, HANDLES[post]);
}

it("[BRW-1] every pair of size, light and language is in a row, and every row seats a post", () => {
  const pairs = (rows: readonly Row[]) =>
    new Set(rows.flatMap(([s, l, g]) => [`${s} ${l}`, `${s} ${g}`, `${l} ${g}`]));
  expect(pairs(ROWS).size).toBe(3 * 3 + 3 * 2 + 3 * 2);
  expect(new Set(RUNS.flatMap((run) => Object.values(run))).size).toBe(ROWS.length);
});

it("[BRW-1] content that overflows, is scrolled out of sight or is covered is found", async () => {
  const page = await browser.newPage({ viewport: SIZES.phone });
  const panel = (ask: string, more = "") =>
    page.setContent(`<main class="panel-main"><section class="panel-ask" style="${ask}">
      <div class="ask"><h2>Is it clear?</h2></div></section></main>
      <nav>${["Hold", "Cut", "Fire"].map((w) => `<button class="stop" style="height:120px">${w}</button>`).join("")}</nav>${more}`);
  await panel("");
  expect(await layoutFaults(page)).toEqual([]);
  await panel("", '<div style="width:500px;height:1px"></div>');
  expect(await layoutFaults(page)).toEqual([expect.stringMatching(/^the page runs out sideways by \d+ px$/)]);
  await panel(
    "height:60px;overflow:hidden",
    "<script>document.querySelector('h2').style.marginTop='90px'</script>",
  );
  expect(await layoutFaults(page)).toEqual(["out of sight: Is it clear?"]);
  await panel("", '<div style="position:fixed;inset:auto 0 0 0;top:80px;height:300px"></div>');
  expect(await layoutFaults(page)).toEqual(["covered: Hold", "covered: Cut", "covered: Fire"]);
  await page.close();
});

it.each(RUNS.map((run, i) => [i, run] as const).slice(0, LONG_FORM ? RUNS.length : 1))(
  "[BRW-1] [VIS-1] [PAN-7] one engine from the brief to stable, each post in its own row: run %i",
  async (index, rows) => {
    const seats = Object.fromEntries(
      await Promise.all(POSTS.map(async (post) => [post, await seated(post, rows[post])] as const)),
    ) as Record<Post, Seat>;
    const { cockpit, fireGuard: guard, groundPower: power, supervisor } = seats;
    const crew: Crew = { cockpit, guard, power, supervisor, all: [cockpit, guard, power, supervisor] };
    const story = await Prompter.begin(crew, server, `QX-W${index}`);
    const at = (post: Post) => rows[post].join(", ");

    /** Expects every ask and every stop in sight at every post. */
    const inSight = async () => {
      const faults = await Promise.all(
        POSTS.map(async (post) => (await layoutFaults(seats[post].page)).map((f) => `${at(post)}: ${f}`)),
      );
      expect(faults.flat()).toEqual([]);
    };
    /** Answers an ask in the post's language, then enters the figure as read or the engine's number where it is due. */
    const answers = async (post: Post, asked: AskSay, key: ChoiceWord, then?: "reading" | "engine") => {
      const find = () => story.asked(post).find((a) => a.say === asked);
      await story.until(() => find() !== undefined);
      const ask = find();
      if (!ask) throw new Error(`${asked} is not asked`);
      const seat = seatAt(crew, post);
      const words = SAY[rows[post][2]];
      const sentence = words.ask(ask);
      await seat.asked(sentence);
      if (then !== "reading") await inSight();
      const box = seat.page.locator(".ask");
      await seat.press(words.choice(key), box);
      if (then === "engine") await box.locator(".number-key", { hasText: String(N) }).click();
      if (then === "reading") {
        for (const i of [2, 1]) await box.locator(".step-key").nth(i).click();
        await box.locator(".entry .answer[data-tone=yes]").click();
      }
      await seat.askedNoMore(sentence);
    };

    await story.playUntil((s) => s.stage === "brief");
    for (const post of POSTS) {
      const { page } = seats[post];
      expect(
        await page.evaluate(() => [document.documentElement.dataset.mode, document.documentElement.lang]),
      ).toEqual(rows[post].slice(1));
      await answers(post, "brief", "briefed");
    }
    // These stages are looked at when they begin; the scripted partners do their work.
    for (const stage of ["secure", "powerUp", "groundPower", "starting"] satisfies Stage[]) {
      await story.playUntil((s) => s.stage === stage);
      await inSight();
    }
    await answers("cockpit", "cardOfEngine", "stepDone");
    await answers("cockpit", "cardOfEngine", "read", "reading");
    await story.playUntil(() => story.asked("cockpit").some((a) => a.say === "readyToStart"));
    await answers("cockpit", "readyToStart", "readyToStart");
    await answers("fireGuard", "guardInPlace", "guardInPlace");
    await answers("fireGuard", "arcClear", "arcClear");
    await answers("supervisor", "clearToStart", "clearToStart");
    await answers("cockpit", "answer.clearToStart", "readBack", "engine");
    await answers("cockpit", "crank", "cranking");
    await answers("cockpit", "cranking", "caught");
    await answers("cockpit", "oilFirst", "read", "reading");
    await answers("cockpit", "settle", "started");
    await story.until((s) => s.engines[N - 1]?.life.is === "stable");
    await inSight();

    for (const post of POSTS) {
      const { page, complaints } = seats[post];
      expect(await drawnFaults(page, rows[post][1]), at(post)).toEqual([]);
      expect(await axeFaults(page), at(post)).toEqual([]);
      expect(complaints, at(post)).toEqual([]);
    }
    story.close();
    await Promise.all(crew.all.map((seat) => seat.context.close()));
  },
);

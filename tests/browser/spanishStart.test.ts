import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import { STOPPED_WARM } from "../../shared/partners/play.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import { stateIn } from "../../shared/words/authored.ts";
import { say } from "../../shared/words/es.ts";
import { padOf } from "../../web/posts/shared/gathered.ts";
import { text as spanishText } from "../../web/words/es/text.ts";
import { type Crew, passTime, seatAt } from "./crew.ts";
import { englishOn } from "./englishOn.ts";
import { LONG_FORM } from "./longForm.ts";
import { Prompter } from "./prompter.ts";
import { KEEPS_NOTHING, openBrowser, Seat } from "./seat.ts";
import { TestServer } from "./server.ts";

const server = new TestServer();
let browser: Browser;
let crew: Crew;

async function speaking(handle: string): Promise<Seat> {
  const context = await browser.newContext({
    viewport: { width: 1180, height: 820 },
    locale: "es-CO",
    ...KEEPS_NOTHING,
  });
  return Seat.inContext(context, server.url, handle);
}

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
  const [cockpit, guard, power, supervisor] = [
    await speaking("austol"),
    await speaking("cador"),
    await speaking("lowen"),
    await speaking("merryn"),
  ];
  crew = { cockpit, guard, power, supervisor, all: [cockpit, guard, power, supervisor] };
});
afterAll(async () => {
  await browser?.close();
  await server.end();
});

/** Texts that the people at the posts entered. */
const ENTERED = ["Stand 4, north apron", "Cart Knocker", STOPPED_WARM];
/** The same, and as the chart shortens them. */
const WRITTEN = ENTERED.flatMap((text) => [
  text,
  ...Array.from({ length: text.length - 2 }, (_, i) => `${text.slice(0, text.length - 1 - i)}…`),
]);
/** So fast that an engine is warm within a second. */
const PACE = 600;

/** Returns a look at every panel before a post acts, with the English words and the asks that it met. */
function looking(story: Prompter) {
  const found = new Set<string>();
  const asked = new Set<string>();
  /**
   * Waits until the post's ask is shown, then collects the English words of every panel. In the short form only for the
   * first ask of each kind: the sentences of the next engine differ by its number alone.
   */
  const look = async (post: Post) => {
    const [first] = askedOf(stateIn(story.state, "es"), post, server.now());
    if (first && asked.has(first.say) && !LONG_FORM) return;
    if (first) {
      asked.add(first.say);
      const pad = padOf(first);
      const sentence = pad === null ? say.ask(first) : spanishText.ask.pads[pad];
      const words = seatAt(crew, post).page.locator(".ask h2, .queue-row", { hasText: sentence });
      await words.first().waitFor({ state: "attached" });
    }
    for (const seat of crew.all) for (const word of await englishOn(seat.page, WRITTEN)) found.add(word);
  };
  return { look, found, asked };
}

it("[LNG-13] a whole start with a hold, a cut, a fire and drills shows no English word in Spanish", async () => {
  const story = await Prompter.begin(crew, server, "QX-PEN", PACE);
  const { look, found, asked } = looking(story);
  const [first = 1, second = 2] = story.state.order;
  const stop = async (post: Post, kind: "hold" | "cut" | "fire", engine?: number) => {
    const where = kind === "fire" ? { place: "nacelle" as const } : {};
    await story.give(post, {
      type: "send",
      kind,
      channel: "panel",
      ...(engine === undefined ? {} : { engine }),
      ...where,
    });
  };
  await story.playUntil((s) => s.engines[first - 1]?.life.is === "stable", look);
  // An engine that stands: its starter needs no rest afterwards.
  await stop("supervisor", "cut", second);
  await story.playUntil((s) => s.cuts.length === 0, look);
  await stop("groundPower", "hold");
  await story.playUntil((s) => s.holds.length === 0, look);
  await stop("fireGuard", "fire", first);
  await story.playUntil((s) => s.fires.length === 0 && s.drills.length === 0, look);
  await story.playUntil((s) => s.stage === "closed", look);
  for (const seat of crew.all) await seat.sees("Esta sesión está cerrada.");
  expect([...found]).toEqual([]);
  for (const said of ["crank", "oilFirst", "settle", "warmUp", "answer.hold", "ownHold", "answer.fire"])
    expect(asked).toContain(said);
  for (const said of ["fireOut", "drill", "drillEnd", "answer.cut", "resetCut", "removeChocks", "allClear"])
    expect(asked).toContain(said);
  story.close();
});

it("[LNG-13] nor does its return, with an engine stopped before it had cooled", async () => {
  const story = await Prompter.begin(crew, server, "QX-PEN", PACE, "return");
  const { look, found, asked } = looking(story);
  await story.playUntil((s) => (s.returning?.coolingSince ?? null) !== null, look);
  const [first = 1] = story.state.order;
  await story.playUntil((s) => s.engines[first - 1]?.readings.headTemp !== undefined, look);
  await look("cockpit");
  await story.give("cockpit", { type: "send", kind: "shutDown", engine: first, channel: "panel" });
  const idle = server.type("penhale-twin").stopping?.coolDown?.atIdle?.value ?? 0;
  await passTime(server, crew, idle * 1_000);
  await story.playUntil((s) => s.stage === "closed", look);
  for (const seat of crew.all) await seat.sees("Esta sesión está cerrada.");
  expect([...found]).toEqual([]);
  for (const said of ["onStand", "insertChocks", "coolDownBegins", "coolDownGauge", "coolDownRemark"])
    expect(asked).toContain(said);
  for (const said of ["stopEngine", "propellerStopped", "switchesOff", "advance.stowing", "advance.stopped"])
    expect(asked).toContain(said);
  story.close();
});

import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { plain } from "../../shared/engine/life.ts";
import { type Crew, passTime, signInCrew } from "./crew.ts";
import { LONG_FORM } from "./longForm.ts";
import { Prompter } from "./prompter.ts";
import { openBrowser, type Seat } from "./seat.ts";
import { TestServer } from "./server.ts";

/** So fast that an engine is warm within a second. */
const PACE = 600;
const FIRST = 3;
const TYPE = "kestle-four";
const BOOST = "Boost pump on: fuel pressure";
const HORIZON = "Horizon comes erect on this engine's pump";
const SUCTION = "Suction with engine 3's vacuum pump selected";
const REASON = "Rough, stopped at once";

const life = ({ state }: Prompter, n = FIRST) => plain(state.engines[n - 1]?.life ?? { is: "waiting" }).is;
const cardAsked = (p: Prompter, item: string) =>
  p.asked("cockpit").some((a) => a.key.startsWith(`card:${item}:${FIRST}`));

/** Touches one of the keys that change a figure twice, and records it. */
async function stepTwice(cockpit: Seat, words: string, key: number): Promise<void> {
  await cockpit.asked(words);
  const ask = cockpit.page.locator(".ask");
  await cockpit.press("Enter reading", ask);
  for (let i = 0; i < 2; i += 1) await ask.locator(".step-key").nth(key).click();
  await cockpit.press(/^Record /, ask);
}

/** Enters a figure well below the one from which the entry begins. The panel says that it is low, and sends it. */
async function readLow(cockpit: Seat, words: string): Promise<void> {
  await stepTwice(cockpit, words, 0);
  await cockpit.press(/^Send /, cockpit.page.locator(".ask"));
}

/** Enters the figure anew, as far above the last one as that was below. */
const readAgain = (cockpit: Seat, words: string) => stepTwice(cockpit, words, 3);

/** A failure, and the touches that bring it to its end on the panels. */
type Failure = (p: Prompter, crew: Crew) => Promise<void>;

const noBoost: Failure = async (p, { cockpit, supervisor }) => {
  await p.playUntil(() => cardAsked(p, "boostPump"));
  await readLow(cockpit, `Number ${FIRST}: ${BOOST}`);
  await p.until((s) => s.card?.[`boostPump:${FIRST}`]?.good === false);
  // Its pump is asked about again, after all else; until then no start is asked for.
  await p.playUntil(() => cardAsked(p, "boostPump"));
  await cockpit.asked(`Number ${FIRST}, not good before: ${BOOST}. Is it now?`);
  await expect(
    p.give("supervisor", { type: "send", kind: "clearToStart", engine: FIRST, channel: "panel" }),
  ).rejects.toThrow(/"status":"refused"/);
  expect(await supervisor.page.getByRole("button", { name: "Clear to start" }).count()).toBe(0);
  await readAgain(cockpit, `Number ${FIRST}, not good before: ${BOOST}. Is it now?`);
  await p.until((s) => s.card?.[`boostPump:${FIRST}`]?.good === true);
  await p.playUntil(() => life(p) === "stable");
};

const deadPump: Failure = async (p, { cockpit, supervisor }) => {
  await p.playUntil(() => cardAsked(p, "horizon"));
  await cockpit.answer(`Number ${FIRST}: ${HORIZON}`, "Not alive");
  await p.until((s) => s.card?.[`horizon:${FIRST}`]?.good === false);
  const check = (key: string) => p.asked("cockpit").some((a) => a.key === `check:${key}`);
  await p.playUntil((s) => s.stage === "warmUp" && check("suctionEngine3"));
  await readLow(cockpit, SUCTION);
  await p.until((s) => s.checks.suctionEngine3?.good === false);
  await expect(p.give("supervisor", { type: "advance", to: "release" })).rejects.toThrow(
    /check:suctionEngine3/,
  );
  expect(
    await supervisor.page
      .getByText("The engines are warm and ground power is off. Go on to release?")
      .count(),
  ).toBe(0);
  await readAgain(cockpit, SUCTION);
  await p.until((s) => s.checks.suctionEngine3?.good === true);
  await p.playUntil((s) => s.stage === "release");
};

const tooMany: Failure = async (p, crew) => {
  const most = p.state.type.starter.attempts?.value ?? 0;
  expect(most).toBeGreaterThan(0);
  for (let tried = 0; tried < most; tried += 1) {
    await p.playUntil(() => life(p) === "cranking");
    await p.give("cockpit", { type: "send", kind: "startAbandoned", engine: FIRST, channel: "panel" });
    // The starter rests, and hands may go to its propeller. No sign-in stays unused for half an hour.
    for (const minutes of tried + 1 < most ? [10] : [20, 15]) await passTime(server, crew, minutes * 60_000);
  }
  await p.playUntil(() => life(p) === "requested");
  const { supervisor } = crew;
  await supervisor.asked(`The crew is ready to start number ${FIRST}. Not yet: something is missing.`);
  await supervisor.sees(`${most} attempts since it last ran: stop, find the reason`);
  await expect(
    p.give("supervisor", { type: "send", kind: "clearToStart", engine: FIRST, channel: "panel" }),
  ).rejects.toThrow(/attemptsLeft/);
  expect(p.state.engines[FIRST - 1]?.attempts).toBe(most);
};

const cutShort: Failure = async (p, { cockpit, guard }) => {
  await p.playUntil((s) => s.stage === "stopping" && (s.returning?.coolingSince ?? null) !== null);
  const [first = 0] = p.state.order;
  await cockpit.answer(
    `Number ${first} cools at idle. Read its cylinder head temperature.`,
    `Stop ${first} now, still warm`,
  );
  await cockpit.asked(`Number ${first} was stopped before it had cooled. Why?`);
  const ask = cockpit.page.locator(".ask");
  await cockpit.press("Write the reason", ask);
  await ask.locator("input[name=reason]").fill(REASON);
  await cockpit.press("Write the reason", ask);
  await guard.answer(`Number ${first} should be stopped. Does its propeller stand still?`, "Stands still");
  expect(p.state.defects).toMatchObject([{ words: REASON, engine: first, barsStart: false }]);
  expect(p.state.returning?.remarksDue).toEqual([]);
  await passTimeAtIdle();
  await p.playUntil((s) => s.stage === "closed");
};

/** The shortest comes first: `npm test` plays that one, the long form all. */
const FAILURES: readonly [string, "start" | "return", Failure][] = [
  ["a cool-down cut short: the reason is owed, then the return is closed", "return", cutShort],
  ["no boost pressure: no start before it is read in its band", "start", noBoost],
  ["a vacuum pump that does not come alive holds the warm-up", "start", deadPump],
  // Last: so much time passes in it that sign-ins come near their end.
  ["an attempt too many is not cleared", "start", tooMany],
];
const aircraftOf = (index: number) => `QX-F${index}`;
const server = new TestServer({
  aircraft: FAILURES.map((_, i) => ({ id: aircraftOf(i), name: `Failing ${i + 1}`, typeId: TYPE })),
});
let browser: Browser;
let crew: Crew;
let playing: Prompter | undefined;

const passTimeAtIdle = () =>
  passTime(server, crew, (server.type(TYPE).stopping?.coolDown?.atIdle?.value ?? 0) * 1_000);

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
  crew = await signInCrew(browser, server.url);
});
afterAll(async () => {
  playing?.close();
  await browser?.close();
  await server.end();
});

it.each(FAILURES.map((f, i) => [...f, i] as const).slice(0, LONG_FORM ? undefined : 1))(
  "[CRD-23] at the panels, %s",
  async (_name, purpose, fails, index) => {
    playing?.close();
    playing = await Prompter.begin(crew, server, aircraftOf(index), PACE, purpose);
    await fails(playing, crew);
    expect(crew.all.flatMap((s) => s.complaints)).toEqual([]);
  },
);

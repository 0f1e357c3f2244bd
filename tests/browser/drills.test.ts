import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { demo } from "../../seed/demo-data.ts";
import { plain } from "../../shared/engine/life.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { DrillRun, SessionState } from "../../shared/session/state.ts";
import type { Drill, Trigger } from "../../shared/types/drill.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { firePlaces, posts } from "../../shared/words/en/states.ts";
import { type Crew, passTime, seatAt, signInCrew } from "./crew.ts";
import { LONG_FORM } from "./longForm.ts";
import { Prompter } from "./prompter.ts";
import { openBrowser, type Seat } from "./seat.ts";
import { TestServer } from "./server.ts";

/**
 * Drills that begin in different ways: at each post, by a fire, an alert, a blade count and by hand. The long form works
 * all.
 */
const SHORT = ["fireInduction", "guardLost", "hydraulicLock", "supervisorLost", "runaway"];

/** All types hold the same drills, as the first test shows. Each drill is worked on one type, in turn. */
const [{ drills: DRILLS }] = demo.types as [AircraftType];
const typeOf = (index: number) => demo.types[index % demo.types.length] as AircraftType;
/** Returns the engine that the drill happens to: the first to be started. */
const engineOf = (index: number) => typeOf(index).defaultOrder[0] ?? 1;

/** Each drill has its own aircraft, so that no drill waits for the fire of another. */
const aircraftOf = (index: number) => `QX-D${index}`;
const server = new TestServer({
  aircraft: DRILLS.map((drill, i) => ({ id: aircraftOf(i), name: drill.title, typeId: typeOf(i).id })),
});
let browser: Browser;
let crew: Crew;

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
  crew = await signInCrew(browser, server.url);
});
afterAll(async () => {
  await browser?.close();
  await server.end();
});

/** An event at the first engine: when it happens, which post sees it and which keys that post touches. */
interface Befalls {
  when(state: SessionState, n: number): boolean;
  at: Post;
  touch(seat: Seat, n: number, type: AircraftType): Promise<void>;
}

const engineIs = (is: string) => (state: SessionState, n: number) => {
  const engine = state.engines[n - 1];
  return engine !== undefined && plain(engine.life).is === is;
};
const handsOn = (state: SessionState, n: number) => state.handling?.engine === n;

const fireIn = (place: keyof typeof firePlaces) => async (seat: Seat, n: number) => {
  const sheet = seat.page.getByRole("dialog");
  await seat.press("Fire");
  await seat.press(`Engine number ${n}`, sheet);
  await seat.press(firePlaces[place], sheet);
};

const BY_TRIGGER: Partial<Record<Trigger, Befalls>> = {
  "fire:notSaid": {
    when: engineIs("cranking"),
    at: "fireGuard",
    touch: async (seat) => {
      await seat.press("Fire");
      await seat.press("Close", seat.page.getByRole("dialog"));
    },
  },
  "fire:induction": { when: engineIs("cranking"), at: "fireGuard", touch: fireIn("induction") },
  "fire:exhaust": { when: engineIs("cranking"), at: "supervisor", touch: fireIn("exhaust") },
  "fire:nacelle": { when: engineIs("caught"), at: "cockpit", touch: fireIn("nacelle") },
  "fire:groundEquipment": {
    when: engineIs("cranking"),
    at: "groundPower",
    touch: fireIn("groundEquipment"),
  },
  // Nobody touches a key: the time for oil pressure runs out.
  "alert:oilFirstLate": {
    when: engineIs("caught"),
    at: "cockpit",
    touch: async (seat, n, type) => {
      await passTime(server, crew, type.oil.firstIndication.within.value * 1_000);
      // Nobody looks under an engine that turns.
      await seat.answer(`No oil pressure on number ${n} in time. Shut it down.`, `Shut down ${n}`);
    },
  },
  "alert:guardMissing": {
    when: engineIs("cranking"),
    at: "fireGuard",
    touch: (seat, n) => seat.press(`Leaving number ${n}`),
  },
  "alert:groundPowerOutOfRange": {
    when: engineIs("caught"),
    at: "groundPower",
    touch: async (seat) => {
      await seat.press("Volts again");
      for (let i = 0; i < 4; i += 1) await seat.press("More by 1.0 V");
      await seat.press(/^Record /);
      await seat.sees(/is outside .*: send or change\?$/);
      await seat.press(/^Send /);
    },
  },
  "blades:resistance": {
    when: handsOn,
    at: "groundPower",
    touch: async (seat, n) => {
      await seat.asked(`Turn number ${n} by hand and count the blades. Any resistance: stop.`);
      await seat.press("Count blades");
      await seat.press("More by 1 blades");
      await seat.press("Resistance");
    },
  },
};

async function leavePost(seat: Seat): Promise<void> {
  await seat.openPosts();
  await seat.press("Leave the post");
  await seat.press("Close");
}

/** Drills that belong to no engine. */
const OF_NO_ENGINE = ["fireNotLocated", "slipping", "supervisorLost", "systemLost"];

/** Opens a drill by hand at each post in turn, from the sheet of its engine or of the session. */
function byHand(drill: Drill, index: number): Befalls {
  return {
    when: engineIs(drill.id === "runaway" ? "caught" : "cranking"),
    at: drill.id === "supervisorLost" ? "cockpit" : (POSTS[index % POSTS.length] ?? "cockpit"),
    touch: async (seat, n) => {
      if (drill.id === "supervisorLost") await leavePost(crew.supervisor);
      if (OF_NO_ENGINE.includes(drill.id)) {
        await seat.openPosts();
        await seat.press("Open a drill");
      } else await seat.press(new RegExp(`^Engine ${n}:`));
      await seat.press(drill.title, seat.page.getByRole("dialog"));
    },
  };
}

const befalls = (drill: Drill, index: number) =>
  drill.triggers.map((t) => BY_TRIGGER[t]).find((b) => b !== undefined) ?? byHand(drill, index);

/** Every second step of a post is marked as not applicable. */
const isDone = (post: Post, step: number) => (step + POSTS.indexOf(post)) % 2 === 0;

/** A post works its card step by step in order. A post without a card is asked nothing. */
async function workCard(drill: Drill, post: Post): Promise<void> {
  const seat = seatAt(crew, post);
  for (const [step, { words, writesDefect }] of drill.cards[post].entries()) {
    await seat.asked(words);
    await seat.sees(new RegExp(`^${drill.title}, `));
    if (writesDefect && isDone(post, step)) {
      await seat.press("Write the defect");
      await seat.page.getByLabel("Or in your words").fill(drill.title);
      await seat.press("Write the defect");
    }
    await seat.answer(words, isDone(post, step) ? "Done" : "Does not apply");
  }
}

it("[DRL-1] are the same on every type", () => {
  for (const type of demo.types) expect(type.drills, type.id).toEqual(DRILLS);
});

const WORKED = DRILLS.map((drill, index) => [drill.title, typeOf(index).name, drill, index] as const).filter(
  ([, , { id }]) => LONG_FORM || SHORT.includes(id),
);

describe.each(WORKED)("%s, %s", (_title, _type, drill, index) => {
  const n = engineOf(index);
  it("[DRL-2] [DRL-3] [DRL-4] [DRL-5] [DRL-6] [DRL-7] is opened at a panel, worked by each post, ended, and shown in the record", async () => {
    const story = await Prompter.begin(crew, server, aircraftOf(index));
    const { when, at, touch } = befalls(drill, index);
    await story.playUntil((s) => when(s, n));
    await touch(seatAt(crew, at), n, server.type(typeOf(index).id));
    const runOf = (s: SessionState) => s.drills.find((r) => r.drill === drill.id);
    await story.until((s) => runOf(s) !== undefined);
    const { id: run, engine } = runOf(story.state) as DrillRun;
    // Ground power out of range belongs to no engine.
    const ofNone = OF_NO_ENGINE.includes(drill.id) || drill.triggers.includes("alert:groundPowerOutOfRange");
    expect(engine).toBe(ofNone ? null : n);

    await Promise.all(POSTS.map((post) => workCard(drill, post)));
    // The touch on Fire opened the drill of a fire not located yet; it ends by a person like any other.
    if (drill.triggers.some((t) => t.startsWith("fire:") && t !== "fire:notSaid"))
      await crew.supervisor.answer(
        "The drill is complete: Fire, place not known yet. End it?",
        "End the drill",
      );
    const end = `The drill is complete: ${drill.title}. End it?`;
    const ends = drill.id === "supervisorLost" ? "cockpit" : "supervisor";
    await seatAt(crew, ends).answer(end, "End the drill");
    await story.until((s) => runOf(s) === undefined);

    const told = story.heard.flatMap(({ fact, actor }) => {
      const by = actor.kind === "person" ? actor.post : actor.kind;
      if (fact.type === "drillStepped" && fact.run === run)
        return [`${fact.post} ${fact.step} ${fact.done} by ${by}`];
      return fact.type === "drillEnded" && fact.run === run ? [`ended by ${by}`] : [];
    });
    const steps = POSTS.flatMap((p) => drill.cards[p].map((_, n) => `${p} ${n} ${isDone(p, n)} by ${p}`));
    expect(told.slice(0, -1).sort()).toEqual(steps.sort());
    expect(told.at(-1)).toBe(`ended by ${ends}`);

    const last = seatAt(crew, ends).page;
    await seatAt(crew, ends).turnTo(`/session/${story.session}/record`);
    const lines = last.locator(".record-list li[data-type^=drill] > span:last-child");
    await lines.filter({ hasText: `Drill ended: ${drill.title} (completed)` }).waitFor();
    const shown = await lines.evaluateAll((all) => all.map((e) => e.firstChild?.textContent));
    expect(shown).toContain(`Drill opened: ${drill.title}${engine === null ? "" : `, number ${engine}`}`);
    for (const post of POSTS)
      for (const [n, { words }] of drill.cards[post].entries()) {
        const marked = isDone(post, n) ? "done" : "does not apply";
        expect(shown).toContain(`${drill.title}, ${posts[post].toLowerCase()}: ${words}: ${marked}`);
      }
    story.close();
    expect(crew.all.flatMap((s) => s.complaints)).toEqual([]);
  });
});

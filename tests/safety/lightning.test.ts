import { describe, expect, it } from "vitest";
import { demo } from "../../seed/demo-data.ts";
import { askedOf } from "../../shared/asks/asked.ts";
import { fieldFor } from "../../shared/field/fieldFor.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { nextDeadline } from "../../shared/session/deadline.ts";
import { tellField } from "../../shared/session/step.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { readAircraftType } from "../../shared/types/validate.ts";
import { say as english } from "../../shared/words/en.ts";
import { say as spanish } from "../../shared/words/es.ts";
import { soundingFor } from "../../web/senses/sounding.ts";
import { FOUR } from "../spec/aircraft.ts";
import { given, type Story } from "../spec/given.ts";

const source = { basis: "invented", text: "for tests" } as const;
const MINUTES_30 = 1_800_000;

type Lightning = NonNullable<NonNullable<AircraftType["ramp"]>["lightning"]>;
const withLightning = (acts?: Lightning["acts"]): AircraftType => ({
  ...FOUR,
  ramp: {
    lightning: {
      stopWithin: { value: 6, unit: "mi", source },
      resumeAfter: { value: 1800, unit: "s", source },
      ...(acts ? { acts } : {}),
    },
  },
});
const ACTS: Lightning["acts"] = {
  cockpit: { act: "leaveAircraft", source },
  fireGuard: { act: "shelter", source },
  groundPower: { act: "unplug", source },
  supervisor: { act: "clearRamp", source },
};
const TYPE = withLightning(ACTS);

const starting = (type = TYPE) => given({ type }).upTo("starting");
const flash = (story: Story, post: Post, miles?: number) =>
  story.say(post, { type: "recordFlash", ...(miles === undefined ? {} : { miles }) });
const asked = (story: Story, post: Post) => askedOf(story.state, post, story.now);
const sentences = (story: Story, post: Post) => asked(story, post).map((a) => english.ask(a));
const words = (story: Story, post: Post) => asked(story, post).map((a) => a.say);
const seenByAll = (story: Story) => {
  const alert = story.state.alerts.find((a) => a.kind === "lightning")?.id ?? 0;
  for (const post of POSTS) story.say(post, { type: "acknowledgeAlert", alert });
  return story;
};

describe("lightning near", () => {
  it("[WEA-7] is an alarm to every post, with what the type asks of it, in both languages", () => {
    const story = starting();
    flash(story, "supervisor", 0.4);
    expect(POSTS.map((post) => sentences(story, post)[0])).toEqual([
      "Lightning is near and stops work. Start nothing. Leave the aircraft and go into shelter.",
      "Lightning is near and stops work. Go into shelter and wait there.",
      "Lightning is near and stops work. With the crew's permission: output off and unplug. Then stay clear of cable and cart.",
      "Lightning is near and stops work. Clear nothing. See that nobody stays outside.",
    ]);
    for (const post of POSTS) {
      const first = asked(story, post)[0];
      expect(first && spanish.ask(first)).toMatch(/^Rayos cerca: el trabajo se detiene\. [A-ZÁÉÍÓÚ].*\.$/);
      expect(soundingFor(story.state, post, story.now).map((s) => s.tone)).toContain("alarm");
    }
  });

  it("[WEA-7] stays asked after it was acknowledged, until the last millisecond of the type's time, and then ends", () => {
    const story = starting();
    flash(story, "groundPower");
    const first = story.now;
    story.wait(60);
    flash(story, "groundPower", 5);
    const until = story.now + MINUTES_30;
    seenByAll(story);
    for (const post of POSTS) {
      expect(asked(story, post)[0]).toMatchObject({ say: "lightning", dueAt: until, choices: [] });
    }
    story.waitMs(first + MINUTES_30 - story.now);
    expect(words(story, "groundPower")).toContain("lightning");
    story.waitMs(until - story.now - 1);
    expect(words(story, "fireGuard")).toEqual(["lightning"]);
    expect(nextDeadline(story.state)).toBe(until);
    story.waitMs(1);
    for (const post of POSTS) expect(words(story, post)).not.toContain("lightning");
    expect(story.state.alerts.filter((a) => a.kind === "lightning")).toEqual([]);
    expect(story.raised("lightning")).toHaveLength(1);
    expect(story.replayed()).toEqual(story.state);
  });

  it("[WEA-7] asks each post for the usual act if the type names none", () => {
    const story = starting(withLightning());
    flash(story, "fireGuard");
    expect(sentences(story, "cockpit")[0]).toContain("Start nothing.");
    expect(sentences(story, "groundPower")[0]).toContain("Touch neither cable nor cart.");
  });

  it("[WEA-7] asks nothing if it is far away, or if the type has no limit", () => {
    const far = starting();
    flash(far, "supervisor", 6.1);
    const free = starting(FOUR);
    flash(free, "supervisor", 0.4);
    for (const story of [far, free]) expect(story.raised("lightning")).toEqual([]);
    expect(words(far, "cockpit")).toContain("readyToStart");
  });

  it("[WEA-7] ends at once when the flash is reported farther away than first assumed", () => {
    const story = starting();
    const at = flash(story, "supervisor").events[0]?.seq ?? 0;
    seenByAll(story);
    story.say("supervisor", { type: "recordFlash", of: at, miles: 12 });
    expect(words(story, "cockpit")).toContain("readyToStart");
    expect(story.state.alerts).toEqual([]);
  });

  it("[WEA-7] is asked of every post when another session of the field reported it", () => {
    const here = given({ type: TYPE, session: "here" }).upTo("starting");
    const there = given({ type: TYPE, session: "there" }).upTo("brief");
    there.wait(here.now - there.now > 0 ? (here.now - there.now) / 1000 : 0);
    flash(there, "fireGuard", 0.4);
    const field = fieldFor([here.state, there.state], here.state.place, here.state.id);
    const told = tellField(here.state, field, Math.max(here.now, there.now));
    expect(told.state.alerts.map((a) => [a.kind, Object.keys(a.posts)])).toEqual([["lightning", [...POSTS]]]);
    for (const post of POSTS) {
      expect(askedOf(told.state, post, told.state.at)[0]?.say).toBe("alert.lightning");
    }
  });

  it("[WEA-7] is told when its time comes, if another server's clock was ahead", () => {
    const { state, now } = starting();
    const flashes = [{ session: "there", seq: 9, at: now + 500, miles: 1, person: null }];
    const told = tellField(state, { flashes, weather: null }, now);
    expect(told.state.alerts).toEqual([]);
    expect(nextDeadline(told.state)).toBe(now + 500);
  });
});

describe("work under lightning", () => {
  it("[WEA-8, MCN-9] does not ask the cockpit to start, and clears nothing", () => {
    const story = starting();
    expect(words(story, "cockpit")).toContain("readyToStart");
    story.requested(3).guarded(3);
    flash(story, "groundPower", 0.4);
    expect(story.send("supervisor", "clearToStart", { engine: 3 }).refusal).toMatchObject({
      reason: "conditionsUnmet",
      unmet: [{ id: "lightningClear", is: "no", found: "0.4 mi" }],
    });
    story.send("cockpit", "startAbandoned", { engine: 3 });
    expect(words(story, "cockpit")).toContain("startWaits");
    expect(words(story, "cockpit")).not.toContain("readyToStart");
    story.waitMs(MINUTES_30);
    expect(words(story, "cockpit")).toContain("readyToStart");
  });

  it("[WEA-8, CLR-15] ends a clearance, and tells the cockpit and the supervisor", () => {
    const story = starting();
    story.readBack(3);
    flash(story, "groundPower", 0.4);
    expect(story.told("clearanceVoid").map((f) => f.cause)).toEqual(["condition"]);
    expect(words(story, "cockpit")).not.toContain("crank");
    expect(sentences(story, "supervisor").join(" ")).toContain("has ended: lightning: 0.4 mi.");
  });

  it("[WEA-8] sends nobody to the aircraft: no guard, arc, volts, plug, chocks or outside check is asked for", () => {
    const story = starting().requested(3);
    expect(words(story, "fireGuard")).toContain("guardInPlace");
    flash(story, "cockpit");
    expect(words(seenByAll(story), "fireGuard")).toEqual(["lightning"]);
    story.unseen(880_000);
    expect(words(story, "groundPower")).toEqual(["lightning"]);
    const securing = given({ type: TYPE }).upTo("secure");
    expect(words(securing, "groundPower")).toContain("chocksIn");
    expect(words(securing, "supervisor")).toContain("check");
    flash(securing, "cockpit");
    seenByAll(securing);
    expect(words(securing, "groundPower")).toEqual(["lightning"]);
    expect(words(securing, "supervisor")).not.toContain("check");
    expect(words(securing, "cockpit")).toContain("brakesSet");
  });

  it("[WEA-8] asks the people on the crew's leave only if everybody is clear", () => {
    const story = given({ type: TYPE }).upTo("groundPower");
    story.say("groundPower", { type: "recordCheck", check: "cart", good: true });
    story.send("groundPower", "connectPower");
    expect(words(story, "cockpit")).toContain("answer.connectPower");
    flash(story, "supervisor");
    const request = asked(story, "cockpit").find((a) => a.say === "answer.connectPower");
    expect(request?.choices.map((c) => c.word)).toEqual(["unable"]);
    story.answer("cockpit", story.openSignal("connectPower"), "authorise");
    const out = asked(story, "groundPower").find((a) => a.say === "lightningLeave");
    expect(out?.choices.map((c) => c.word)).toEqual(["clearOfAircraft"]);
    expect(words(story, "groundPower")).not.toContain("powerConnected");
  });

  it.each([
    ["unplug", true],
    ["clearOfCable", false],
  ] as const)("[WEA-8] with the act %s, unplugging stays asked: %s", (act, stays) => {
    const type = withLightning({ ...ACTS, groundPower: { act, source } });
    const story = given({ type }).upTo("warmUp");
    flash(story, "cockpit");
    expect(words(story, "cockpit").includes("disconnectPower")).toBe(stays);
    story.send("cockpit", "disconnectPower");
    expect(words(story, "groundPower").includes("powerDisconnected")).toBe(stays);
  });
});

it.each(demo.types)(
  "[WEA-7, TYP-11] $id says what each post does, with a source; no act is another post's",
  (type) => {
    const acts = type.ramp?.lightning?.acts;
    expect(POSTS.map((p) => (acts?.[p].source.text.length ?? 0) > 40)).toEqual([true, true, true, true]);
    const wrong = structuredClone(type) as unknown as {
      ramp: { lightning: { acts: { cockpit: { act: string } } } };
    };
    wrong.ramp.lightning.acts.cockpit.act = "clearRamp";
    expect("faults" in readAircraftType(wrong)).toBe(true);
  },
);

import { describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import { DEFINITIONS, findAll } from "../../shared/conditions/all.ts";
import { CONDITION_IDS } from "../../shared/protocol/conditions.ts";
import { nextDeadline } from "../../shared/session/deadline.ts";
import { readAircraftType } from "../../shared/types/validate.ts";
import { FOUR } from "../spec/aircraft.ts";
import { ada, di, fay, given, onDevice, type Person, type Story } from "../spec/given.ts";
import { applying, LENIENT, STRICT } from "./types.ts";

const starting = () => given({ type: LENIENT }).upTo("starting");
const WIND = "windWithinLimits" as const;
const ALL: (typeof CONDITION_IDS)[number][] = ["noBarringDefect", "othersSettled", "windWithinLimits"];
const setAside = (story: Story, who: Person, engine = 3, condition: (typeof CONDITION_IDS)[number] = WIND) =>
  story.does(who, { type: "override", condition, engine, reason: `${who.id} knows why` });
/** Asked for by the cockpit, completed by the supervisor. */
const aside = (engine = 3) => {
  const story = ready();
  setAside(story, ada, engine);
  setAside(story, di, engine);
  return story;
};
function ready(): Story {
  const story = given({ type: LENIENT });
  story.upTo("brief");
  story.upTo("starting");
  return story;
}
const clear = (story: Story) => story.send("supervisor", "clearToStart", { engine: 3 });

describe("setting a condition aside", () => {
  it.each(["noStopOpen", "noOtherTurningUp", "arcClear", "handsOffPropellers", "postsHeld"] as const)(
    "[OVR-1] no type may let %s be set aside",
    (id) => {
      const read = readAircraftType({ ...STRICT, overridable: [id] });
      expect(
        "faults" in read && read.faults.flatMap((f) => (f.path === "overridable" ? [f.message] : [])),
      ).toEqual([`${id} can never be overridden`]);
    },
  );

  const never = DEFINITIONS.filter((c) => !c.mayBeSetAside).map((c) => c.id);
  it.each(never)("[OVR-1] is refused for %s, whatever the type says", (id) => {
    const read = readAircraftType({ ...STRICT, overridable: [id] });
    expect(
      "faults" in read && read.faults.flatMap((f) => (f.path === "overridable" ? [f.message] : [])),
    ).toEqual([`${id} can never be overridden`]);
    const story = given({ type: { ...LENIENT, overridable: [id] } }).upTo("starting");
    expect(setAside(story, ada, 3, id).refusal?.reason).toBe("notOverridable");
  });

  it.each(CONDITION_IDS.filter((id) => !LENIENT.overridable.includes(id)))(
    "[OVR-1] is refused for %s if the type does not allow it",
    (id) => {
      expect(setAside(starting(), ada, 3, id).refusal?.reason).toBe("notOverridable");
    },
  );

  it("[OVR-2] takes two people, each with a reason; the clearance is then given", () => {
    const story = ready().requested(3).guarded(3);
    expect(clear(story).refusal?.unmet?.map((u) => u.id)).toEqual([WIND]);
    setAside(story, ada);
    expect(clear(story).refusal?.reason).toBe("conditionsUnmet");
    expect(setAside(story, di).refusal).toBeUndefined();
    expect(story.state.overrides).toMatchObject([
      { first: { person: "ada", reason: "ada knows why" }, second: { person: "di", reason: "di knows why" } },
    ]);
    expect(clear(story).refusal).toBeUndefined();
  });

  it("[OVR-2] is refused to one person on two devices", () => {
    const story = starting();
    setAside(story, ada);
    const phone = onDevice(ada, "phone");
    story.does(phone, { type: "claimPost", post: "cockpit" });
    setAside(story, phone);
    expect(setAside(story, phone).refusal?.reason).toBe("secondPersonNeeded");
    expect(story.state.overrides.every((o) => o.second === null)).toBe(true);
  });

  it("[OVR-2, ASK-2] is refused to two people on one device, and the second is not asked", () => {
    const story = starting();
    story.does(onDevice(di, "ada-tablet"), { type: "claimPost", post: "supervisor" });
    setAside(story, ada);
    expect(askedOf(story.state, "supervisor", story.now).filter((a) => a.say === "override")).toEqual([]);
    expect(setAside(story, onDevice(di, "ada-tablet")).refusal?.reason).toBe("secondPersonNeeded");
  });

  it("[OVR-2] is refused to guard and ground power; each engine needs its own", () => {
    const story = starting();
    expect(
      story.say("fireGuard", { type: "override", condition: WIND, engine: 3, reason: "x" }).refusal?.reason,
    ).toBe("wrongPost");
    setAside(story, ada, 3);
    setAside(story, di, 4);
    expect(story.state.overrides.map((o) => [o.engine, o.second])).toEqual([
      [3, null],
      [4, null],
    ]);
    expect(setAside(story, ada, 5).refusal?.reason).toBe("noSuchEngine");
  });

  it.each([
    [59_999, true],
    [60_000, false],
  ])(
    "[OVR-3] is given %s when the second person agrees after %i ms, also if the server noticed the time late",
    (ms, given_) => {
      for (const look of ["waitMs", "unseen"] as const) {
        const story = starting();
        setAside(story, ada);
        story[look](ms);
        setAside(story, di);
        expect(story.told("overrideGiven")).toHaveLength(given_ ? 1 : 0);
        expect(story.told("overrideEnded").map((f) => f.why)).toEqual(given_ ? [] : ["late"]);
      }
    },
  );

  it("[OVR-4] is used up by one start of that engine", () => {
    const story = aside().requested(3).guarded(3);
    const clearance = clear(story).events[0]?.seq ?? 0;
    story.answer("cockpit", clearance, "readBack", 3);
    story.send("cockpit", "cranking", { engine: 3, ref: clearance });
    expect(story.told("overrideEnded").map((f) => f.why)).toEqual(["used"]);
    expect(story.state.overrides).toEqual([]);
  });

  it("[OVR-4] serves no other engine, and is not used up by another engine's start", () => {
    const story = aside(3).requested(4).guarded(4);
    expect(story.send("supervisor", "clearToStart", { engine: 4 }).refusal?.unmet?.map((u) => u.id)).toEqual([
      WIND,
    ]);
    expect(story.state.overrides).toHaveLength(1);
  });

  it.each([
    ["a hold", (s: Story) => s.send("fireGuard", "hold")],
    ["a fire", (s: Story) => s.send("fireGuard", "fire")],
    ["a change of post", (s: Story) => s.say("groundPower", { type: "leavePost", post: "groundPower" })],
    ["a restart", (s: Story) => s.restart()],
    [
      "a changed plan",
      (s: Story) => s.say("supervisor", { type: "amendPlan", order: [3, 4], reason: "two only" }),
    ],
  ] as const)("[OVR-4] is ended by %s, given or only asked", (_what, change) => {
    const story = aside(3);
    setAside(story, ada, 4);
    change(story);
    expect(story.told("overrideEnded").map((f) => f.why)).toEqual(["epoch", "epoch"]);
    expect(story.state.overrides).toEqual([]);
  });

  it("[OVR-4, CLR-6] is ended together with the clearance by a stop; the release brings neither back", () => {
    const story = aside().requested(3).guarded(3);
    clear(story);
    const hold = story.send("fireGuard", "hold").events[0]?.seq ?? 0;
    story.send("fireGuard", "release", { ref: hold });
    story.requested(3).guarded(3);
    expect(clear(story).refusal?.unmet?.map((u) => u.id)).toEqual([WIND]);
  });

  it("[OVR-4] ends when the starting stage is left", () => {
    const story = starting();
    for (const n of story.state.order) {
      setAside(story, ada, n);
      setAside(story, di, n);
      story.started(n);
    }
    setAside(story, ada, 3);
    story.heard().say("supervisor", { type: "advance", to: "warmUp" });
    expect(story.state.stage).toBe("warmUp");
    expect(story.told("overrideEnded").at(-1)?.why).toBe("stageLeft");
    expect(story.state.overrides).toEqual([]);
  });

  it("[OVR-5] is named in the basis of the clearance", () => {
    const story = aside().requested(3).guarded(3);
    clear(story);
    const sent = story.told("sent").find((f) => f.kind === "clearToStart");
    expect(sent?.basis?.filter((r) => r.is === "overridden").map((r) => r.id)).toEqual([WIND]);
  });

  it("[OVR-5, TIM-1] lets the report grow old: the clearance stands and no deadline is repeated", () => {
    const story = starting();
    story.say("supervisor", { type: "recordWeather", windKt: 5 });
    story.wait(3_590);
    story.brakes();
    setAside(story, ada);
    setAside(story, di);
    story.volts(28);
    story.requested(3).guarded(3);
    expect(clear(story).refusal).toBeUndefined();
    story.wait(15);
    expect(story.life(3)).toBe("clear");
    expect(nextDeadline(story.state) ?? 0).toBeGreaterThan(story.now);
  });

  it("[OVR-2] is refused to a second supervisor, because the post is held", () => {
    const story = starting();
    expect(story.does(fay, { type: "claimPost", post: "supervisor" }).refusal?.reason).toBe("postHeld");
    setAside(story, ada);
    expect(setAside(story, fay).refusal?.reason).toBe("wrongPost");
  });
});

describe("what a set-aside covers", () => {
  const DEFECTS = { ...applying("noBarringDefect", "windWithinLimits"), overridable: ALL };
  const story = () => given({ type: DEFECTS }).upTo("starting");
  const both = (told: Story, condition: (typeof CONDITION_IDS)[number]) => {
    setAside(told, ada, 3, condition);
    setAside(told, di, 3, condition);
    return told;
  };
  const defect = (told: Story, words: string, engine = 3) =>
    told.say("cockpit", { type: "writeDefect", words, engine, barsStart: true });
  const wind = (told: Story, windKt: number) => told.say("supervisor", { type: "recordWeather", windKt });
  const ended = (told: Story) => told.told("overrideEnded").map((f) => f.why);

  it("[OVR-7] is one defect; another defect voids it and the clearance", () => {
    const told = story();
    wind(told, 5);
    defect(told, "oil leak");
    both(told, "noBarringDefect").readBack(3);
    expect(told.life(3)).toBe("clear");
    defect(told, "another engine's", 1);
    expect(told.life(3)).toBe("clear");
    defect(told, "fuel leak");
    expect(ended(told)).toEqual(["changed"]);
    expect(told.told("clearanceVoid")).toMatchObject([
      { cause: "condition", unmet: [{ id: "noBarringDefect" }] },
    ]);
  });

  it("[OVR-7] are two defects, of which one may be closed; a new one voids it", () => {
    const told = story();
    defect(told, "oil leak");
    defect(told, "fuel leak");
    both(told, "noBarringDefect");
    const [first] = told.state.defects;
    told.say("supervisor", { type: "closeDefect", defect: first?.id ?? "", reason: "tightened" });
    expect(ended(told)).toEqual([]);
    defect(told, "oil leak");
    expect(ended(told)).toEqual(["changed"]);
  });

  it("[OVR-7] is one report and its figure; a newer report voids it, also with the same figure", () => {
    for (const newer of [40, 45]) {
      const told = story();
      wind(told, 40);
      both(told, "windWithinLimits");
      told.wait(1);
      expect(ended(told)).toEqual([]);
      wind(told, newer);
      expect(ended(told)).toEqual(["changed"]);
    }
  });

  it("[OVR-7] may not change while the second person is awaited, who would agree to something else", () => {
    const told = story();
    wind(told, 40);
    setAside(told, ada);
    told.wait(1);
    wind(told, 60);
    expect(ended(told)).toEqual(["changed"]);
    setAside(told, di);
    expect(told.state.overrides).toMatchObject([{ first: { person: "di" }, second: null }]);
  });

  it("[OVR-7] is an engine that has only caught; a fire or another such engine voids it", () => {
    const told = story();
    told.brakes();
    wind(told, 5);
    told.caught(2);
    both(told, "othersSettled");
    expect(told.state.overrides[0]?.seen).toMatchObject({ is: "no", things: ["2"] });
    const state = {
      ...told.state,
      engines: told.state.engines.map((e) =>
        e.n === 4 ? { ...e, life: told.state.engines[1]?.life ?? e.life } : e,
      ),
    };
    expect(findAll(told.state, 3, told.now).find((r) => r.id === "othersSettled")?.is).toBe("overridden");
    expect(findAll(state, 3, told.now).find((r) => r.id === "othersSettled")?.is).toBe("no");
  });

  it("[OVR-7] is a good report that may grow old; a bad report voids it", () => {
    const told = given({ type: { ...FOUR, overridable: ["brakesSet"] } }).upTo("starting");
    told.brakes();
    both(told, "brakesSet").wait(600);
    expect(ended(told)).toEqual([]);
    told.brakes(10);
    expect(ended(told)).toEqual(["changed"]);
  });

  it("[OVR-7, TIM-1] is one person whose training has lapsed; a second person's lapse voids it", () => {
    const type = { ...applying("postsCurrent"), overridable: ["postsCurrent" as const] };
    const told = given({ type }).upTo("starting");
    const date = (post: "cockpit" | "supervisor", who: Person, at: number) => {
      told.say(post, { type: "leavePost", post });
      told.does({ ...who, currentUntil: at }, { type: "claimPost", post });
    };
    date("cockpit", ada, told.now - 1);
    date("supervisor", di, told.now + 5_000);
    both(told, "postsCurrent");
    expect(nextDeadline(told.state)).toBe(told.now + 5_000);
    told.waitMs(4_999);
    expect(ended(told)).toEqual([]);
    told.waitMs(1);
    expect(ended(told)).toEqual(["changed"]);
  });

  it("[OVR-7, EVT-5] is everything in an older record, which did not keep what was seen", () => {
    const told = story();
    wind(told, 40);
    both(told, "windWithinLimits");
    const overrides = told.state.overrides.map(({ seen: _seen, ...older }) => older);
    told.wait(1);
    const old = {
      ...told.state,
      overrides,
      weather: told.state.weather && { ...told.state.weather, windKt: 60 },
    };
    expect(findAll(old, 3, told.now).find((r) => r.id === WIND)?.is).toBe("overridden");
  });
});

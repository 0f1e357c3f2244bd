import { describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import { catalogue } from "../../shared/words/en/catalogue.ts";
import { lookupOf, sayEvent } from "../../shared/words/events.ts";
import { sayIn } from "../../shared/words/say.ts";
import { drill, withTiming } from "../safety/types.ts";
import { FOUR } from "./aircraft.ts";
import { ada, bo, CREW, cy, di, ed, fay, given, onDevice, type Person, type Story } from "./given.ts";
import { Ramp } from "./ramp.ts";

const UNSAID = { ...drill("fireSomewhere", "fire:notSaid"), bars: "all" as const };
const SLIPS = { ...withTiming(FOUR, { slip: 5 }), drills: [UNSAID, drill("nacelle", "fire:nacelle")] };
const starting = () => given({ type: SLIPS }).upTo("starting");
const STOPS = ["hold", "cut", "cutAll", "fire"] as const;
type Kind = (typeof STOPS)[number];
const raise = (story: Story, who: Person, kind: Kind) =>
  story.does(who, { type: "send", kind, ...(kind === "cut" ? { engine: 3 } : {}) }).events[0]?.seq ?? 0;
const takeBack = (story: Story, who: Person, ref: number) =>
  story.does(who, { type: "send", kind: "disregard", ref }).refusal;
const standing = ({ state }: Story) => [...state.holds, ...state.cuts, ...state.fires].map((s) => s.id);

describe("a stop taken back as a slip", () => {
  it.each(STOPS.flatMap((kind) => [bo, ed].map((who) => [kind, who.name, who] as const)))(
    "[STP-1, STP-4] %s by %s: it ends, its alert ends, and every held post is told and answers",
    (kind, _name, who) => {
      const story = starting();
      const ref = raise(story, who, kind);
      story.answer("cockpit", ref, "received");
      story.unseen(4_999);
      expect(takeBack(story, who, ref)).toBeUndefined();
      expect(standing(story)).toEqual([]);
      expect(story.state.alerts.every((a) => !a.active)).toBe(true);
      expect(story.state.signals.filter((s) => s.id === ref)).toEqual([]);
      const told = story.log.findLast((e) => e.fact.type === "sent");
      expect(told).toMatchObject({
        at: story.now,
        actor: { id: who.id, device: who.device },
        fact: { kind: "disregard", ref, note: kind },
      });
      for (const post of ["cockpit", "groundPower", "supervisor"] as const) {
        const [ask] = askedOf(story.state, post, story.now).filter((a) => a.signal === told?.seq);
        expect(ask).toMatchObject({ say: "answer.disregard", detail: { is: "signal", kind } });
        expect(askedOf(story.state, post, story.now).some((a) => a.say.startsWith("alertOver"))).toBe(false);
        story.answer(post, told?.seq ?? 0, "received");
      }
      if (who === ed) story.answer("fireGuard", told?.seq ?? 0, "received");
      expect([story.state.alerts, story.state.signals]).toEqual([[], []]);
    },
  );

  it("[STP-1] from the limit on it stands like any other stop", () => {
    for (const kind of STOPS) {
      const story = starting();
      const ref = raise(story, bo, kind);
      story.wait(5);
      expect(takeBack(story, bo, ref)).toEqual({ reason: "slipOver" });
      expect(standing(story)).toEqual([ref]);
    }
  });

  it("[STP-1] by nobody else, and on no other device", () => {
    const story = starting();
    const ref = raise(story, bo, "fire");
    for (const who of [ada, cy, di, ed, onDevice(bo, "another")]) {
      expect(takeBack(story, who, ref)).toEqual({ reason: "notYourSlip", found: "Bo" });
    }
    expect(standing(story)).toEqual([ref]);
  });

  it("[STP-2] not where the type gives no time, nor an engine seen turning, nor a stop from elsewhere", () => {
    for (const kind of STOPS) {
      const story = given().manned();
      const ref = raise(story, bo, kind);
      expect(takeBack(story, bo, ref)).toEqual({ reason: "noSlips" });
      expect(standing(story)).toEqual([ref]);
    }
    const turning = starting();
    const seen = turning.does(bo, { type: "send", kind: "turning", engine: 2 }).events[0]?.seq ?? 0;
    expect(takeBack(turning, bo, seen)).toEqual({ reason: "noSlips" });
    expect(turning.life(2)).toBe("cranking");
    const ramp = new Ramp();
    const first = ramp.plan({ type: SLIPS }).manned();
    const second = ramp.plan({ type: SLIPS }).manned();
    raise(first, bo, "fire");
    ramp.settle(first);
    expect(takeBack(second, bo, second.state.fires[0]?.id ?? 0)).toEqual({ reason: "noSlips" });
    expect(takeBack(first, bo, first.state.fires[0]?.id ?? 0)).toBeUndefined();
    ramp.settle(first);
    expect([standing(second), ramp.record.items]).toEqual([[], []]);
  });

  it("[STP-5, CLR-14] what it ended stays ended", () => {
    for (const kind of STOPS) {
      const story = starting();
      story.readBack(3);
      const { epoch } = story.state;
      const ref = raise(story, bo, kind);
      expect(takeBack(story, bo, ref)).toBeUndefined();
      expect([story.life(3), story.state.epoch]).toEqual(["waiting", epoch + 1]);
      expect(story.log.filter((e) => e.fact.type === "clearanceVoid")).toHaveLength(1);
      expect(story.send("cockpit", "cranking", { engine: 3 }).refusal).toBeUndefined();
      expect(story.turnsUncleared(3)).toBe(true);
    }
  });

  it("[STP-4] an engine named for the fire is as if nothing had been said, unless another fire burns there", () => {
    const story = starting().started(3);
    const ref = raise(story, bo, "fire");
    for (const engine of [3, 4]) story.does(bo, { type: "send", kind: "fireAt", ref, engine });
    expect(takeBack(story, bo, ref)).toBeUndefined();
    expect([story.life(3), story.life(4)]).toEqual(["stable", "waiting"]);
    const earlier = raise(story, cy, "fire");
    story.does(cy, { type: "send", kind: "fireAt", ref: earlier, engine: 4 });
    story.unseen(1);
    const slip = raise(story, bo, "fire");
    story.does(bo, { type: "send", kind: "fireAt", ref: slip, engine: 4 });
    expect(takeBack(story, bo, slip)).toBeUndefined();
    expect(story.state.engines[3]?.life).toMatchObject({ is: "fire", fire: earlier });
  });

  it("[STP-4] the drill that the fire alone opened ends and says why; one that has another cause stays", () => {
    const story = starting();
    const ref = raise(story, bo, "fire");
    expect(story.state.drills).toHaveLength(1);
    expect(takeBack(story, bo, ref)).toBeUndefined();
    expect(story.state.drills).toEqual([]);
    const lookup = lookupOf(story.log, sayIn(catalogue));
    const lines = story.last.events.map((e) => sayEvent(e, lookup));
    expect(lines).toContain("Disregard: fire was sent by mistake");
    expect(lines).toContain("Drill ended: fireSomewhere (the fire was reported by mistake)");
    const before = raise(story, cy, "fire");
    story.unseen(1);
    const again = raise(story, bo, "fire");
    expect(takeBack(story, bo, again)).toBeUndefined();
    expect(story.state.drills).toMatchObject([{ drill: "fireSomewhere", ref: before }]);
  });
});

describe("a stop that somebody may have acted on is not taken back", () => {
  const acted: readonly [string, Kind, (story: Story, ref: number) => unknown, string][] = [
    ["a cut reported done", "cutAll", (s, ref) => s.answer("cockpit", ref, "done"), "Ada"],
    ["a fire that somebody will see to", "fire", (s, ref) => s.answer("supervisor", ref, "willComply"), "Di"],
    ["a cut that the cockpit cannot do", "cut", (s, ref) => s.answer("cockpit", ref, "unable"), "Ada"],
    ["a fire reported by another too", "fire", (s) => raise(s, fay, "fire"), "Fay"],
    ["a hold given by another too", "hold", (s) => raise(s, ed, "hold"), "Ed"],
    ["a cut given by another too", "cut", (s) => raise(s, ada, "cutAll"), "Ada"],
    ["a fire that made another cut", "fire", (s) => raise(s, ada, "cut"), "Ada"],
    [
      "a fire that another located",
      "fire",
      (s, ref) => s.does(cy, { type: "send", kind: "fireAt", ref, engine: 1 }),
      "Cy",
    ],
    ["a fire that another saw out", "fire", (s, ref) => s.send("cockpit", "fireOut", { ref }), "Ada"],
    [
      "a fire whose drill was begun",
      "fire",
      (s) => s.say("cockpit", { type: "drillStep", run: s.state.drills[0]?.id ?? 0, step: 0, done: true }),
      "fireSomewhere",
    ],
    ["an engine shut down since", "hold", (s) => s.send("cockpit", "shutDown", { engine: 4 }), "shutDown"],
    ["a start given up since", "fire", (s) => s.send("cockpit", "startAbandoned", { engine: 3 }), "shutDown"],
  ];
  it.each(acted)("[STP-3] %s", (_what, kind, act, found) => {
    const story = starting().started(4);
    story.cranking(3);
    story.unseen(1);
    const ref = raise(story, bo, kind);
    act(story, ref);
    expect(takeBack(story, bo, ref)).toEqual({ reason: "slipActedOn", found });
    expect(standing(story)).toContain(ref);
  });

  it("[STP-3] having received it, an earlier stop and the sender's own words do not prevent it", () => {
    const story = starting().started(4);
    story.send("cockpit", "shutDown", { engine: 4 });
    raise(story, ed, "hold");
    story.unseen(1);
    const ref = raise(story, bo, "fire");
    for (const post of ["cockpit", "groundPower", "supervisor"] as const) story.answer(post, ref, "received");
    story.does(bo, { type: "send", kind: "fireAt", ref, engine: 2, place: "nacelle" });
    expect(takeBack(story, bo, ref)).toBeUndefined();
    expect([story.life(2), story.state.drills, standing(story).length]).toEqual(["waiting", [], 1]);
    expect(takeBack(story, CREW.fireGuard, ref)).toEqual({ reason: "nothingOpen" });
  });
});

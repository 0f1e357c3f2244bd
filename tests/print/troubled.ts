import { readFileSync } from "node:fs";
import { type AircraftType, aircraftTypeSchema } from "../../shared/types/schema.ts";
import { FOUR } from "../spec/aircraft.ts";
import { bo, cy, di, ed, fay, given, type Story } from "../spec/given.ts";

const source = { basis: "invented", text: "for tests" } as const;

/** Returns a whole type of the seed. */
export function seeded(name: string): AircraftType {
  const url = new URL(`../../seed/types/${name}.json`, import.meta.url);
  return aircraftTypeSchema.parse(JSON.parse(readFileSync(url, "utf8")));
}

/** The test type with what the trouble needs: wind that may be set aside, and the seed's drills. */
export const TROUBLE: AircraftType = {
  ...FOUR,
  approvedBy: "Chief engineer",
  conditions: [...FOUR.conditions, "windWithinLimits"],
  overridable: ["windWithinLimits"],
  drills: seeded("kestle-four").drills,
  orderSource: { ...source, text: "3 drives the brakes' pump" },
};

/** Returns a start in which everything that a record must show happens at least once. */
export function troubled(): Story {
  const story = given({ type: TROUBLE }).upTo("starting");
  const must = (step: ReturnType<Story["does"]>) => {
    if (step.refusal) throw new Error(JSON.stringify(step.refusal));
    return step.events[0]?.seq ?? 0;
  };
  // Refused: no wind was read. Then set aside by two people, and cleared.
  story.requested(3).guarded(3);
  story.send("supervisor", "clearToStart", { engine: 3 });
  const aside = { type: "override", condition: "windWithinLimits", engine: 3 } as const;
  must(story.say("cockpit", { ...aside, reason: "sock hangs down" }));
  must(story.say("supervisor", { ...aside, reason: "seen from the tower" }));
  const clearance = must(story.send("supervisor", "clearToStart", { engine: 3 }));
  // A hold ends the clearance; the observer who raised it releases it.
  const hold = must(story.does(ed, { type: "send", kind: "hold", note: "dog on the ramp" }));
  story.answer("cockpit", hold, "received");
  story.wait(4);
  must(story.does(ed, { type: "send", kind: "release", ref: hold }));
  // Refused: the clearance is void, and nobody can read it back.
  story.answer("cockpit", clearance, "readBack", 3);
  must(story.say("supervisor", { type: "recordWeather", windKt: 8, gustKt: 12 }));
  // Cranked longer than the ladder's limit, given up, then caught at the second attempt.
  story.cranking(3);
  story.wait(43);
  must(story.send("cockpit", "startAbandoned", { engine: 3 }));
  story.wait(61).started(3);
  // A fire at 4 while it cranks, worked by its card, reported out by two people; then a cut.
  story.cranking(4);
  const fire = must(story.does(bo, { type: "send", kind: "fire", engine: 4, place: "induction" }));
  const run = story.state.drills[0]?.id ?? 0;
  must(story.say("cockpit", { type: "drillStep", run, step: 0, done: true }));
  must(story.say("fireGuard", { type: "drillStep", run, step: 0, done: false, note: "cannot reach it" }));
  story.wait(5);
  must(story.send("cockpit", "startAbandoned", { engine: 4 }));
  must(story.does(bo, { type: "send", kind: "fireOut", ref: fire }));
  must(story.does(di, { type: "send", kind: "fireOut", ref: fire }));
  must(story.say("supervisor", { type: "endDrill", run, outcome: "out, starter let go" }));
  const cut = must(story.send("supervisor", "cutAll"));
  must(story.answer("cockpit", cut, "done"));
  must(story.send("supervisor", "resetCut", { ref: cut }));
  // A defect, volts that sag, and the ground power post handed over.
  must(
    story.say("cockpit", { type: "writeDefect", words: "Starter of 4 runs hot", engine: 4, barsStart: true }),
  );
  must(story.volts(24.5));
  must(story.say("groundPower", { type: "offerPost", post: "groundPower", to: "fay" }));
  must(story.does(fay, { type: "acceptPost", post: "groundPower" }));
  must(story.does(fay, { type: "confirmBrief" }));
  story.does(cy, { type: "send", kind: "chocksIn" });
  story.restart();
  return story;
}

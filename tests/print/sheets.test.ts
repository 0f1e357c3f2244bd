import { describe, expect, it } from "vitest";
import { canonical } from "../../shared/evidence/canonical.ts";
import { recordOf } from "../../shared/paper/record.ts";
import { say } from "../../shared/words/en.ts";
import { exported, given } from "../spec/given.ts";
import { troubled } from "./troubled.ts";

const record = (story = troubled()) => recordOf(story.log, exported(story.log).manifest.head, say);

describe("what the record says", () => {
  it("[PRN-5] gives each try at an engine its own times, read off the states", () => {
    const three = record().engines[2]?.attempts ?? [];
    expect(three.map((a) => a.ended?.words)).toEqual(["Not cranked", "Given up", "Shut down"]);
    expect(three[1]).toMatchObject({ starterS: 43, starterMaxS: 40, caught: null, wasCleared: true });
    const [last] = three.slice(-1);
    expect(last).toMatchObject({ starterS: 8, oilFirstFigure: "20 psi", oilNormalFigure: "60 psi" });
    expect(
      [last?.oilFirst, last?.oilNormal, last?.stable].map((t) => (t ?? 0) - (last?.caught ?? 0)),
    ).toEqual([3_000, 6_000, 26_000]);
  });

  it("[PRN-5] an engine that turned without clearance has a try that says so", () => {
    const story = given().upTo("starting");
    story.send("fireGuard", "turning", { engine: 2 });
    expect(record(story).engines[1]?.attempts).toMatchObject([{ wasCleared: false, asked: null }]);
  });

  it("[PRN-6] an alert tells who acknowledged it at which post; by answering its stop counts", () => {
    const { alerts } = record();
    const hold = alerts.find((a) => a.words === "A hold was raised.");
    expect(hold?.acknowledged).toMatchObject([{ post: "cockpit", name: "Ada" }]);
    expect(hold?.endedAt).not.toBeNull();
    const volts = alerts.find((a) => a.words.startsWith("Ground power volts"));
    expect(volts).toMatchObject({ acknowledged: [], endedAt: null });
  });

  it("[PRN-6] an alert acknowledged outright is told the same way", () => {
    const story = given().upTo("starting");
    story.volts(20);
    const alert = story.state.alerts[0]?.id ?? 0;
    story.say("groundPower", { type: "acknowledgeAlert", alert });
    expect(record(story).alerts.at(-1)?.acknowledged).toMatchObject([{ post: "groundPower", name: "Cy" }]);
  });

  it("[PRN-6] a stop that stands has no end, whoever reported it", () => {
    const story = given().upTo("starting");
    story.send("supervisor", "hold");
    expect(record(story).stops).toMatchObject([{ is: "hold", ended: null, by: "Di, supervisor" }]);
  });

  it("[PRN-2] is a matter of the events alone", () => {
    expect(canonical(record())).toBe(canonical(record()));
  });

  it("[PRN-8] refuses events that are not a whole session from its plan", () => {
    const { log } = given().manned();
    expect(() => recordOf(log.slice(1), "", say)).toThrow("begins with its plan");
    expect(() => recordOf([], "", say)).toThrow("begins with its plan");
  });
});

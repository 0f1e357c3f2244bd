import { describe, expect, it } from "vitest";
import { type Choice, fill } from "../../shared/asks/ask.ts";
import { askedOf } from "../../shared/asks/asked.ts";
import { idleReached } from "../../shared/runUp/idleSteps.ts";
import { engineOf } from "../../shared/session/state.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { say as english } from "../../shared/words/en.ts";
import { say as spanish } from "../../shared/words/es.ts";
import { RICH } from "../figures/rich.ts";
import { given, type Say, type Story } from "./given.ts";
import { STOPPED } from "./stoppable.ts";

const source = { basis: "invented", text: "for tests" } as const;
const rpm = (value: number) => ({ value, unit: "rpm", source }) as const;
const oilAt = (value: number) =>
  ({ gauge: "oilTemp", atLeast: { value, unit: "degC", source }, keep: 60 }) as const;
const idle: AircraftType["idle"] = [
  { rpm: rpm(1000) },
  { rpm: rpm(1200), from: oilAt(40) },
  { rpm: rpm(1400), from: oilAt(60) },
];
const STEPPED: AircraftType = { ...RICH, idle };

const begun = () =>
  given({ type: STEPPED, order: [3, 4] })
    .manned()
    .upTo("starting");
const oil = (story: Story, n: number, value: number) => story.reading("oilTemp", n, value, "degC");
const asked = ({ state, now }: Story) => askedOf(state, "cockpit", now).filter((a) => a.say === "idleFaster");
const answer = (story: Story) => {
  const choices = asked(story)[0]?.choices ?? [];
  expect(choices).toHaveLength(1);
  const chosen = choices[0] as Choice;
  expect(chosen.need).toBeNull();
  return story.say("cockpit", fill(chosen, {}) as Say);
};
const faster = (story: Story, engine = 3) => story.send("cockpit", "idleFaster", { engine });

describe("the next step of the idle", () => {
  it("[CRD-20] is asked once the oil is at its figure and not a degree before, and answered with one touch", () => {
    const story = begun().started(3);
    oil(story, 3, 39.9);
    expect(asked(story)).toEqual([]);
    oil(story, 3, 40);
    const [first] = asked(story);
    expect(first?.engine).toBe(3);
    expect(first && english.ask(first)).toBe("Number 3 is warm enough: set 1200 rpm.");
    expect(first && spanish.ask(first)).toMatch(/^El motor 3 .* 1200 rpm\.$/);
    expect(answer(story).refusal).toBeUndefined();
    expect(asked(story)).toEqual([]);
    expect(story.log.at(-1)?.fact).toMatchObject({
      type: "sent",
      kind: "idleFaster",
      engine: 3,
      note: "1200 rpm",
    });
    oil(story, 3, 60);
    expect(asked(story)[0]?.detail).toEqual({ is: "figure", figure: { value: 1400, unit: "rpm" } });
    answer(story);
    expect(asked(story)).toEqual([]);
  });

  it("[CRD-20] goes straight to the last step that the figure allows", () => {
    const story = begun().started(3);
    oil(story, 3, 65);
    expect(asked(story)[0]?.detail).toMatchObject({ figure: { value: 1400 } });
    answer(story);
    expect(asked(story)).toEqual([]);
  });

  it("[CRD-20] is asked of one engine at a time, and only once it is stable", () => {
    const story = begun().started(3).running(4);
    oil(story, 3, 50);
    oil(story, 4, 50);
    expect(asked(story).map((a) => a.engine)).toEqual([3]);
    answer(story);
    expect(asked(story)).toEqual([]);
    story.send("cockpit", "started", { engine: 4 });
    expect(asked(story).map((a) => a.engine)).toEqual([4]);
  });

  it("[CRD-20] is silent while a starter is held, and behind every ask of a start and every alert", () => {
    const story = begun().started(3);
    oil(story, 3, 50);
    const place = () => {
      const asks = askedOf(story.state, "cockpit", story.now);
      return { at: asks.findIndex((a) => a.say === "idleFaster"), weights: asks.map((a) => a.weight) };
    };
    expect(place().at).toBeGreaterThanOrEqual(0);
    story.readBack(4);
    const { at, weights } = place();
    expect(weights[at]).toBe(4);
    expect(weights.slice(0, at).some((w) => w === 2)).toBe(true);
    const engine = story.state.engines[3]?.life;
    story.send("cockpit", "cranking", { engine: 4, ref: engine?.is === "clear" ? engine.clearance.id : 0 });
    expect(engineOf(story.state, 4)?.life.is).toBe("cranking");
    expect(asked(story)).toEqual([]);
    story.send("cockpit", "caught", { engine: 4 });
    expect(place().at).toBeGreaterThan(0);
    story.wait(6);
    expect(place().weights[0]).toBeLessThanOrEqual(1);
    expect(place().at).toBeGreaterThan(0);
  });

  it("[CRD-20] is silent while a stop stands, without oil pressure, and where the type has no steps", () => {
    const story = begun().started(3);
    oil(story, 3, 50);
    const { seq } = story.send("groundPower", "hold").state;
    expect(asked(story)).toEqual([]);
    expect(faster(story).refusal?.reason).toBe("stopOpen");
    story.send("groundPower", "release", { ref: story.state.holds[0]?.id ?? seq });
    expect(asked(story)).toHaveLength(1);
    story.oil(3, 1);
    expect(asked(story)).toEqual([]);
    expect(faster(story).refusal?.reason).toBe("oilLost");
    const plain = given({ type: RICH, order: [3] })
      .manned()
      .upTo("starting")
      .started(3);
    oil(plain, 3, 90);
    expect(asked(plain)).toEqual([]);
    expect(faster(plain).refusal?.reason).toBe("alreadyDone");
    const { idle: _none, ...without } = STEPPED;
    const state = { ...story.state, type: without };
    expect(idleReached(state, engineOf(state, 3) as never)).toBeNull();
  });

  it("[CRD-20] is refused before its figure, with the figure, and a second time", () => {
    const story = begun().started(3);
    expect(faster(story).refusal).toMatchObject({ reason: "missingFigure", found: "40 degC" });
    expect(faster(story, 4).refusal?.reason).toBe("wrongEngineState");
    oil(story, 3, 41);
    expect(faster(story).refusal).toBeUndefined();
    expect(faster(story).refusal).toMatchObject({ reason: "missingFigure", found: "60 degC" });
    oil(story, 3, 60);
    faster(story);
    expect(faster(story).refusal?.reason).toBe("alreadyDone");
    for (const post of ["fireGuard", "groundPower", "supervisor"] as const)
      expect(story.send(post, "idleFaster", { engine: 3 }).refusal?.reason).toBe("wrongPost");
  });

  it("[CRD-20] begins anew when the engine stopped and was started again", () => {
    const story = begun().started(3);
    oil(story, 3, 50);
    answer(story);
    story.send("cockpit", "shutDown", { engine: 3 });
    expect(engineOf(story.state, 3)?.idleStep).toBeUndefined();
    expect(faster(story).refusal?.reason).toBe("wrongEngineState");
  });

  it("[CRD-20] is not asked in a return", () => {
    const back = given({ type: { ...STOPPED, idle: idle as never }, purpose: "return" }).upTo("arrival");
    oil(back, 3, 90);
    expect(asked(back)).toEqual([]);
    expect(faster(back).refusal?.reason).toBe("wrongStage");
  });
});

import { beforeAll, describe, expect, it } from "vitest";
import { printBrief } from "../../server/print/brief.ts";
import { printRecord } from "../../server/print/record.ts";
import { briefOf } from "../../shared/paper/brief.ts";
import { escapeWaysBack } from "../../shared/paper/escape.ts";
import { recordOf } from "../../shared/paper/record.ts";
import { say as english } from "../../shared/words/en.ts";
import { say as spanish } from "../../shared/words/es.ts";
import { exported, given, START, type Story } from "../spec/given.ts";
import { type ReadPdf, readPdf, redIn, solid } from "./reader.ts";
import { seeded } from "./troubled.ts";

/** Time to print and read back on a machine that is busy with other tests. */
const SLOW_MS = 120_000;
const KESTLE = seeded("kestle-four");

/** A return of three engines, of which one is stopped warm, stowed and closed. */
function returned(): Story {
  const story = given({ type: KESTLE, purpose: "return", order: [2, 3, 4] }).manned();
  story.upTo("stopping");
  story.send("cockpit", "coolDown");
  story.wait(45);
  story.stopped(2);
  story.say("cockpit", { type: "writeDefect", engine: 2, words: "rough at idle", barsStart: false });
  story.upTo("stowing");
  const good = (post: Parameters<Story["say"]>[0], check: string, note?: string) =>
    story.say(post, { type: "recordCheck", check, good: true, ...(note ? { note } : {}) });
  good("fireGuard", "bottleStowed");
  good("groundPower", "cartStowed");
  good("cockpit", "fuelNoted", "left 410 l, right 395 l");
  good("supervisor", "oilNoted", "2 down 3 l");
  good("cockpit", "defectsWritten");
  story.upTo("closed");
  return story;
}

const recorded = (story: Story, say = english) => recordOf(story.log, exported(story.log).manifest.head, say);

describe("the printed record of a return", () => {
  let story: Story;
  let bytes: Buffer;
  let read: ReadPdf;
  beforeAll(async () => {
    story = returned();
    bytes = await printRecord(recorded(story), story.now, "short");
    read = await readPdf(bytes);
  }, SLOW_MS);

  it("[PRN-16] is headed as a return with its order of stopping, and says how the aircraft was held", () => {
    for (const page of read.pages) expect(page).toContain("Return record CH-TST");
    expect(read.pages[0]).toContain("2-3-4");
    expect(read.solid).toContain(solid("Order of stopping"));
    const arrival = recorded(story).returned?.arrival.map((r) => r.words) ?? [];
    expect(arrival.map((words) => words.split(",")[0])).toEqual([
      "On the stand",
      "Brakes set",
      "Chocks in",
      "Engines idle to cool down",
      "Engines idle to cool down",
    ]);
    for (const words of arrival) expect(read.solid).toContain(solid(words));
  });

  it("[PRN-16] gives each engine its idle, its last figures, its stop and who saw its propeller still", () => {
    const rows = recorded(story).returned?.engines ?? [];
    expect(rows.map((e) => [e.n, e.cameTurning, e.idledS, e.stopped?.by, e.still?.by])).toEqual([
      [1, false, null, undefined, "Bo, fire guard"],
      [2, true, 45, "Ada, cockpit", "Bo, fire guard"],
      [3, true, 180, "Ada, cockpit", "Bo, fire guard"],
      [4, true, 180, "Ada, cockpit", "Bo, fire guard"],
    ]);
    expect(rows[2]?.figures).toEqual(["Cylinder head temperature 200 °C"]);
    expect(read.solid).toContain(solid("came in stopped"));
    expect(read.solid).toContain(solid("180 s Cylinder head temperature 200 °C nothing short"));
  });

  it("[PRN-9] [PRN-16] a cool-down that was cut short is red, counted at the head, with its reason", async () => {
    const { engines = [] } = recorded(story).returned ?? {};
    expect(engines[1]?.short?.words).toMatch(/^COOL-DOWN CUT SHORT, number 2: idle 45 s of 180 s/);
    expect(read.pages[0]).toContain("1 cool-down cut short");
    const red = await redIn(bytes);
    expect(red).toContain(solid("Reason: rough at idle"));
    expect(red).not.toContain(solid("nothing short"));
  });

  it("[PRN-16] says what was done after the last engine, and what was stowed and noted", () => {
    const log = recorded(story).returned;
    expect(log?.after).toHaveLength(1);
    expect(log?.stowing.map((c) => c.note).filter((n) => n !== null)).toEqual([
      "left 410 l, right 395 l",
      "2 down 3 l",
    ]);
    for (const words of ["(left 410 l, right 395 l)", "(2 down 3 l)", "Bottle back in its place"])
      expect(read.solid).toContain(solid(words));
  });

  it("[PRN-16] an unfinished return says in red what turns and what nobody has seen still", async () => {
    const open = given({ type: KESTLE, purpose: "return", order: [2, 3, 4] })
      .manned()
      .upTo("stopping");
    open.send("cockpit", "shutDown", { engine: 2 });
    const red = await redIn(await printRecord(recorded(open), open.now, "short"));
    for (const words of ["NOT SEEN STILL", "NOT STOPPED", "TURNS", "NO REASON WRITTEN"])
      expect(red).toContain(solid(words));
  });

  it("[PRN-16] a start has no part of a return", () => {
    expect(recorded(given().manned()).returned).toBeNull();
  });
});

describe("the printed brief of a return", () => {
  const state = () => given({ type: KESTLE, purpose: "return", order: [2, 3, 1, 4] }).manned().state;

  it("[PRN-16] gives the order of stopping with its reasons, the cool-down and who sees a propeller still", async () => {
    const brief = briefOf(state(), [], english);
    expect(brief.usualOrder).toBe(true);
    expect(brief.starts.map((s) => [s.n, s.reasons[0]])).toEqual([
      [2, "nothing that others drive stops with it"],
      [3, "hydraulic pump, vacuum pump stops with it"],
      [1, "nothing that others drive stops with it"],
      [4, "generator stops with it"],
    ]);
    expect(brief.starts[0]?.reasons).toContain(
      "turns beside the wheels: nobody goes to them before it stands still",
    );
    const { pages, solid: text } = await readPdf(await printBrief(brief, START));
    for (const page of pages) expect(page).toContain("Return brief CH-TST");
    for (const words of [...brief.stopping, ...brief.fire, ...brief.chockRule, "Order of stopping"])
      expect(text).toContain(solid(words));
    expect(brief.stopping[0]).toBe("Every engine idles for 180 s before it is stopped.");
    expect(text).not.toContain(solid("before the power-up checks"));
  });

  it("[PRN-11] [PRN-16] the way out at each stop leads past nothing that still turns", () => {
    expect(escapeWaysBack(KESTLE, [2, 3, 1, 4])).toMatchObject([
      { engine: 2, way: "ahead", closedBy: [1] },
      { engine: 3, way: "ahead", closedBy: [4] },
      { engine: 1, way: "outboard" },
      { engine: 4, way: "outboard", turning: [] },
    ]);
  });

  it("[LNG-6] [PRN-16] brief and record of a return are Spanish for a Spanish reader", async () => {
    const brief = await readPdf(await printBrief(briefOf(state(), [], spanish), START));
    for (const words of ["Briefing de regreso", "Orden de apagado", "Cada motor queda en ralentí 180 s"])
      expect(brief.solid).toContain(solid(words));
    const story = returned();
    const record = await readPdf(await printRecord(recorded(story, spanish), story.now, "full"));
    for (const words of [
      "Registro de regreso",
      "Enfriamiento y apagado de cada motor",
      "Motivo: rough at idle",
    ])
      expect(record.solid).toContain(solid(words));
    for (const words of ["Return", "Stowing", "Cool-down"]) expect(record.solid).not.toContain(solid(words));
  });
});

describe("oil dilution on paper", () => {
  const cold = () => {
    const story = given({ type: seeded("carrack-three"), purpose: "return" })
      .manned()
      .upTo("stopping");
    for (const [value, note] of [
      [20, "Radio"],
      [-20, "Weather office"],
    ] as const)
      story.say("cockpit", {
        ...{ type: "recordCheck", check: "nightLeast", note, reading: { value, unit: "degF" } },
      });
    return story;
  };

  it(
    "[RTN-31] the record lists each forecast with its source and what was worked out, in both languages",
    async () => {
      const story = cold();
      const rows = recorded(story).returned?.dilution ?? [];
      expect(rows.map((r) => r.words.split("\n"))).toEqual([
        [
          "Least temperature expected this night: 20 °F (Radio)",
          "Oil dilution before stopping: 240 s",
          "10 % of fuel, for each engine",
          expect.stringMatching(/^The next start begins on thin oil/),
        ],
        [
          "Least temperature expected this night: -20 °F (Weather office)",
          "Oil dilution before stopping: –",
          expect.stringMatching(/^Colder than every step/),
        ],
      ]);
      expect(rows.map((r) => r.by)).toEqual(["Ada, cockpit", "Ada, cockpit"]);
      const read = await readPdf(await printRecord(recorded(story), story.now, "short"));
      expect(read.solid).toContain(solid("Oil dilution before a cold night"));
      expect(read.solid).toContain(solid("Least temperature expected this night: 20 °F (Radio)"));
      const inSpanish = recorded(story, spanish);
      const written = inSpanish.returned?.dilution?.map((r) => r.words).join("\n") ?? "";
      expect(written).toMatch(/^Temperatura mínima esperada esta noche: 20 °F \(Radio\)\nDilución/);
      expect(written).not.toMatch(/fuel|engine|start/);
      expect(recorded(returned()).returned?.dilution).toBeNull();
    },
    SLOW_MS,
  );

  it("[RTN-31] the brief says what is asked and what each step serves; of a type without the data it says nothing", () => {
    const said = (story: Story, say = english) => briefOf(story.state, [], say).stopping.join("\n");
    expect(said(cold())).toContain("Below 40 °F the oil is diluted before an engine is stopped.");
    expect(said(cold())).toContain("Night down to 10 °F: 10 % of fuel in the oil, 240 s for each engine.");
    expect(said(cold())).toContain("Oil pressure below 15 psi: stop diluting.");
    expect(said(cold(), spanish)).toContain("Noche hasta 10 °F: 10 % de combustible en el aceite");
    expect(said(returned())).not.toContain("diluted");
  });
});

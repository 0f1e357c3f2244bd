import { beforeAll, describe, expect, it } from "vitest";
import { printBrief } from "../../server/print/brief.ts";
import { printCard } from "../../server/print/card.ts";
import { notesOf } from "../../shared/history/notes.ts";
import { type Brief, briefOf } from "../../shared/paper/brief.ts";
import { cardOf } from "../../shared/paper/card.ts";
import { escapeWays } from "../../shared/paper/escape.ts";
import { recordOf } from "../../shared/paper/record.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { say } from "../../shared/words/en.ts";
import { say as spanish } from "../../shared/words/es.ts";
import { MONTGOMERY, rowsOf } from "../history/rows.ts";
import { BOTTLE, CART } from "../spec/equipped.ts";
import { ada, bo, cy, di, fay, given, START } from "../spec/given.ts";
import { type ReadPdf, readPdf, solid } from "./reader.ts";
import { seeded, TROUBLE } from "./troubled.ts";

/** Time to print and read back on a machine that is busy with other tests. */
const SLOW_MS = 120_000;

const PEOPLE = [ada, bo, cy, di, fay];
const KESTLE = seeded("kestle-four");
const SEEDED = ["kestle-four", "penhale-twin", "carrack-three"].map(seeded);

describe("the printed brief", () => {
  let brief: Brief;
  let bytes: Buffer;
  let read: ReadPdf;
  beforeAll(async () => {
    brief = briefOf(given({ type: KESTLE, order: [4, 3, 2, 1] }).manned().state, PEOPLE, say);
    bytes = await printBrief(brief, START);
    read = await readPdf(bytes);
  }, SLOW_MS);

  it("[PRN-1] carries the caution and its number on every page", () => {
    read.pages.forEach((page, i) => {
      expect(solid(page)).toContain(solid(brief.caution));
      expect(page).toContain(`${i + 1} of ${read.pages.length}`);
    });
  });

  it("[HIS-13] lists what the engines do otherwise than before, in the reader's language", async () => {
    const rows = rowsOf("oilNormalS", [...MONTGOMERY.slice(0, 20), 12, 13, 13, 12, 13]);
    const notes = notesOf(rows);
    expect(notes).toHaveLength(1);
    const { state } = given({ type: KESTLE }).manned();
    for (const [spoken, words] of [
      [say, "Number 2 takes longer to oil pressure than in its 20 starts"],
      [spanish, "El número 2 tarda más en dar presión de aceite que en sus 20 arranques"],
    ] as const) {
      const printed = await printBrief(briefOf(state, PEOPLE, spoken, notes), START);
      expect(solid((await readPdf(printed)).pages.join())).toContain(solid(words));
    }
    expect(solid(read.pages.join())).not.toContain(solid("otherwise than before"));
  });

  it("[EQP-7] lists the equipment with its facts of that day, and whether its label was read", async () => {
    const story = given({ type: KESTLE, more: { equipment: [CART, BOTTLE] } }).manned();
    story.equipment = { facts: BOTTLE, barred: false };
    story.say("fireGuard", { type: "showEquipment", label: BOTTLE.id });
    const printed = await printBrief(briefOf(story.state, PEOPLE, say), START);
    const page = solid((await readPdf(printed)).pages.join());
    const cart = "28 V, 500 A all the time, 1500 A at its peak, cable 2/0 of 9.144 m";
    expect(page).toContain(
      solid(`GPU-1, North cart: ground power cart, ${cart}; label not read at the stand`),
    );
    expect(page).toContain(
      solid("CO2, 22.5 kg, weighed until 31 Dec 2026, tested until 30 Jun 2030; label read"),
    );
    expect(recordOf(story.log, "0".repeat(64), say).equipment).toEqual(
      briefOf(story.state, PEOPLE, say).equipment,
    );
    expect(solid(read.pages.join())).not.toContain(solid("label not read"));
  });

  it("[GEO-3] says what stands near, and in capitals what is too near", async () => {
    const m = (value: number) => ({ value, unit: "m" as const });
    const neighbours = [
      { kind: "building" as const, name: "Hangar 2", bearingDeg: 90, distance: m(80), across: m(30) },
      { kind: "fuelling" as const, name: "Bowser 5", bearingDeg: 90, distance: m(9), across: m(6) },
    ];
    const { state } = given({ type: KESTLE, more: { headingDeg: 90, neighbours } });
    const near = solid((await readPdf(await printBrief(briefOf(state, PEOPLE, say), START))).pages.join());
    expect(near).toContain(solid("Hangar 2 (building): bearing 90°, 80 m from the nose, 30 m across"));
    // 50 ft around fuelling is a figure of the type.
    expect(near).toContain(solid("TOO NEAR. Bowser 5: 9.0 m around, more than 15.2 m needed."));
    expect(near).not.toContain(solid("TOO NEAR. Hangar 2"));
    expect(solid(read.pages.join())).not.toContain(solid("Objects near"));
  });

  it("[PRN-2] the same brief and time give the same bytes", async () => {
    expect((await printBrief(brief, START)).equals(bytes)).toBe(true);
  });

  it("[PRN-4] names the aircraft, its type and who approved it, each post's holder and who may take over", () => {
    for (const words of ["CH-TST", "4-3-2-1", "Marrack Kestle IV, version 1", KESTLE.approvedBy ?? ""])
      expect(read.solid).toContain(solid(words));
    for (const [post, name] of [
      ["Cockpit", "Ada"],
      ["Fire guard", "Bo"],
      ["Ground power", "Cy"],
      ["Supervisor", "Di"],
    ])
      expect(read.solid).toContain(solid(`${post} ${name} not yet Fay`));
  });

  it("[PRN-4] gives every start its reasons, from what the type's engines drive", () => {
    expect(brief.starts.map((s) => [s.n, s.stands, s.reasons[0]])).toEqual([
      [4, "starboard outboard", "first to bring generator"],
      [3, "starboard inboard", "first to bring hydraulic pump, vacuum pump"],
      [2, "port inboard", "adds generator, vacuum pump"],
      [1, "port outboard", "drives nothing the others wait for"],
    ]);
    expect(brief.usualOrder).toBe(false);
    for (const start of brief.starts) expect(read.solid).toContain(solid(start.reasons.join("; ")));
  });

  it("[PRN-4] prints every signal with a standard form, every fire card step and every way out", () => {
    for (const s of brief.signals)
      expect(read.solid).toContain(solid(`${s.words} ${s.from} to ${s.to} ${s.movement}`));
    expect(brief.fireCards.map((d) => d.id)).toEqual([
      "fireInduction",
      "fireExhaust",
      "fireNacelle",
      "fireGroundEquipment",
      "fireNotLocated",
    ]);
    for (const { cards } of brief.fireCards)
      for (const post of POSTS)
        for (const { words } of cards[post]) expect(read.solid).toContain(solid(words));
    for (const { words } of brief.escapes) expect(read.solid).toContain(solid(words));
  });

  it("[PRN-4] says NOT APPROVED of a type nobody approved, and NOBODY of a post nobody holds", async () => {
    const bare = briefOf(given({ type: { ...KESTLE, approvedBy: null } }).state, PEOPLE, say);
    const { solid: text } = await readPdf(await printBrief(bare, START));
    expect(text).toContain("NOTAPPROVED");
    expect(text.split("NOBODY")).toHaveLength(5);
  });

  it("[PRN-3] text in letters the faces lack is printed as near as they can", async () => {
    const odd = { ...brief, place: "Łódź, hangár 3 — 北 Ω" };
    const { pages } = await readPdf(await printBrief(odd, START));
    expect(pages[0]).toContain("?ódz, hangár 3 — ? ohm");
  });
});

interface Place {
  x: number;
  y: number;
}

/** Returns whether a way along one axis comes nearer than `margin` to a disc seen from above. */
function meets(path: readonly Place[], hub: Place, radius: number, margin: number): boolean {
  const span = (of: (p: Place) => number) => [Math.min(...path.map(of)), Math.max(...path.map(of))] as const;
  const [left, right] = span((p) => p.y);
  const [ahead, aft] = span((p) => p.x);
  return (
    ahead < hub.x + margin &&
    aft > hub.x - margin &&
    left < hub.y + radius + margin &&
    right > hub.y - radius - margin
  );
}

describe("ways out", () => {
  const orders = (list: readonly number[]): number[][] =>
    list.length === 0 ? [[]] : list.flatMap((n) => orders(list.filter((m) => m !== n)).map((o) => [n, ...o]));

  it.each(SEEDED.map((t) => [t.name, t] as const))(
    "[PRN-11] %s: none leads through the arc of an engine that turns, in any order",
    (_, type) => {
      const far = type.plan.span / 2 + 5;
      for (const order of orders(type.engines.map((e) => e.n)))
        for (const { engine, way, turning, side } of escapeWays(type, order)) {
          const hub = type.engines.find((e) => e.n === engine) ?? { x: 0, y: 0 };
          const out = side === "starboard" ? 1 : -1;
          const tip = { x: hub.x, y: hub.y + out * (type.propeller.diameter / 2 + 1) };
          const nose = { x: Math.min(...type.engines.map((e) => e.x)) - 2, y: tip.y };
          const path = way === "outboard" ? [tip, { x: tip.x, y: out * far }] : [nose, { x: -20, y: nose.y }];
          for (const n of turning) {
            const place = type.engines.find((e) => e.n === n) ?? { x: 0, y: 0 };
            expect(
              meets(path, place, type.propeller.diameter / 2, 0.3),
              `${order}: ${engine} past ${n}`,
            ).toBe(false);
          }
        }
    },
  );

  it("[PRN-11] the outboard way is closed exactly by what turns farther out on that side", () => {
    expect(escapeWays(TROUBLE, [4, 3, 1, 2])).toMatchObject([
      { engine: 4, way: "outboard", closedBy: [] },
      { engine: 3, way: "ahead", closedBy: [4] },
      { engine: 1, way: "outboard", closedBy: [] },
      { engine: 2, way: "ahead", closedBy: [1] },
    ]);
    expect(escapeWays(TROUBLE, [3, 4, 2, 1]).every((w) => w.way === "outboard")).toBe(true);
  });
});

describe("the printed card", () => {
  it("[PRN-12] holds each type's drill for a lost system, every hand signal and a blank log", async () => {
    const card = cardOf([...SEEDED, { ...TROUBLE, name: "Cardless", drills: [] }], say);
    const read = await readPdf(await printCard(card, START));
    for (const type of SEEDED) {
      expect(read.solid).toContain(solid(type.name));
      for (const post of POSTS)
        for (const { words } of type.drills.find((d) => d.id === "systemLost")?.cards[post] ?? [])
          expect(read.solid).toContain(solid(words));
    }
    expect(read.solid).toContain(solid("Cardless has no card of its own"));
    for (const s of card.signals) expect(read.solid).toContain(solid(s.movement + s.standard));
    expect(read.pages.at(-1)).toContain("Starter off");
    for (const page of read.pages) expect(solid(page)).toContain(solid(card.caution));
  });

  it("[PRN-12] types with the very same drill share it, others have their own", () => {
    const other = {
      ...KESTLE,
      name: "Other",
      drills: KESTLE.drills.map((d) => (d.id === "systemLost" ? { ...d, title: "Paper" } : d)),
    };
    expect(cardOf([...SEEDED, other], say).drills.map((d) => d.types)).toEqual([
      SEEDED.map((t) => t.name),
      ["Other"],
    ]);
  });
});

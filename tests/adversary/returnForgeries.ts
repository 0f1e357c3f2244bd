import type { Post } from "../../shared/protocol/posts.ts";
import { CREW } from "../spec/given.ts";
import type { AnyEvent } from "./sealed.ts";
import { awayAndBack, besideTheWheels, type Records } from "./stories.ts";
import { actorOf, changed, erased, type Forged, forged, inSession, ofType, place, sent } from "./tamper.ts";

export const back = awayAndBack();
export const wheels = besideTheWheels();

/** The start, or the return, whose chocks wait for the inboard engines, with one of its events changed. */
const atWheels = (session: 0 | 1, match: Match, change: Forged, nth = 0) =>
  inSession(wheels, session, (all) => forged(all, place(all, match, nth), change));
const seenTurning = (engine: number): Forged => ({ fact: said("turning", engine) });

type Match = Parameters<typeof place>[1];

/** The return with its events changed. The first session is the start before it. */
const inReturn = (change: (events: AnyEvent[]) => AnyEvent[]) => inSession(back, 1, change);
const gone = (match: Match, nth = 0) => inReturn((all) => erased(all, place(all, match, nth)));
const byOther = (match: Match, actor: unknown) =>
  inReturn((all) => forged(all, place(all, match), { actor }));
const altered = (match: Match, members: object) =>
  inReturn((all) => {
    const i = place(all, match);
    return forged(all, i, { fact: changed(all[i], members) });
  });

/** The supervisor's touch before the arrival, the stops, or after the first or the last of them becomes another fact. */
const written = (nth: 0 | 1 | 2 | 3, fact: { type: string; [member: string]: unknown }, post: Post) =>
  inReturn((all) => forged(all, place(all, ofType("present"), nth), { fact, actor: actorOf(post) }));

function said(kind: string, engine?: number) {
  return { type: "sent", kind, channel: "panel", ...(engine === undefined ? {} : { engine }) };
}

/** The act of a forger in a return, and the rule by which the judge must find it. */
export const RETURN_FORGERIES: readonly [did: string, rule: string, records: () => Records][] = [
  ["takes the word away that the aircraft stands on its place", "RTN-4", () => gone(sent("onStand"))],
  [
    "says by ground power that the aircraft stands",
    "RTN-3",
    () => byOther(sent("onStand"), actorOf("groundPower")),
  ],
  [
    "leaves the arrival held by nothing",
    "RTN-4",
    () => inReturn((all) => erased(erased(all, place(all, sent("brakesSet"))), place(all, sent("chocksIn")))),
  ],
  [
    "abandons a return with engines turning on its place",
    "STG-13",
    () => written(1, { type: "stageReached", stage: "abandoned", reason: "late" }, "supervisor"),
  ],
  [
    "goes on as in a start",
    "STG-2",
    () => altered((f) => f.type === "stageReached" && f.stage === "arrival", { stage: "secure" }),
  ],
  ["idles the engines by another post", "RTN-5", () => byOther(sent("coolDown"), actorOf("supervisor"))],
  ["leaves out that the engines idled", "RTN-7", () => gone(sent("coolDown"))],
  ["leaves out that a cool-down was cut short", "RTN-7", () => gone(ofType("coolDownCut"))],
  [
    "tells less of what was short",
    "RTN-7",
    () =>
      altered(ofType("coolDownCut"), {
        short: [{ is: "gauge", gauge: "cylinderTemp", allowed: 200, found: 201, unit: "degC" }],
      }),
  ],
  [
    "calls a cool-down cut that was not",
    "RTN-7",
    () =>
      written(
        2,
        { type: "coolDownCut", engine: 2, short: [{ is: "time", allowed: 120, found: 1, unit: "s" }] },
        "cockpit",
      ),
  ],
  [
    "makes a warm engine cool",
    "RTN-7",
    () => altered(readingOf(1), { reading: { value: 199, unit: "degC" } }),
  ],
  ["closes without the reason for a warm stop", "RTN-7", () => gone(ofType("defectWritten"))],
  ["takes a propeller's stillness away", "RTN-11", () => gone(sent("propellerStill", 2))],
  ["has hands where nobody saw the propeller still", "RTN-10", () => gone(sent("propellerStill", 3))],
  ["has hands while another was not seen still", "RTN-10", () => gone(sent("propellerStill", 4))],
  ["sees a propeller still that turns", "RTN-8", () => written(1, said("propellerStill", 2), "fireGuard")],
  [
    "sees the propeller still of the engine they stopped",
    "RTN-8",
    () => byOther(sent("propellerStill", 2), actorOf("cockpit")),
  ],
  [
    "sees a propeller still on the device that stopped it",
    "RTN-8",
    () => byOther(sent("propellerStill", 2), { ...actorOf("fireGuard"), device: CREW.cockpit.device }),
  ],
  [
    "proves the switches off under a turning engine",
    "RTN-9",
    () => written(1, said("switchesOff"), "cockpit"),
  ],
  ["has hands with the switches in doubt", "RTN-10", () => gone(sent("switchesOff"))],
  ["has hands before the stowing", "RTN-10", () => written(3, said("handlePropeller", 2), "cockpit")],
  ["closes with the switches in doubt after a turn", "RTN-11", () => gone(sent("switchesOff"), 1)],
  ["closes with an engine turning", "RTN-11", () => gone(sent("shutDown", 4))],
  ["closes with power on", "RTN-11", () => gone(sent("powerDisconnected"))],
  [
    "lets people to the chocks beside a turning inboard engine",
    "MCN-7",
    () => atWheels(1, ofType("present"), { fact: said("insertChocks"), actor: actorOf("cockpit") }),
  ],
  [
    "has chocks pulled while an inboard engine was seen turning",
    "MCN-7",
    () => atWheels(0, ofType("present"), seenTurning(3), 1),
  ],
  [
    "counts the blades of a propeller that turned under the hands",
    "RTN-32",
    () => atWheels(0, ofType("present"), seenTurning(1)),
  ],
  [
    "closes with the bottle not stowed",
    "RTN-11",
    () => inSession(wheels, 1, (all) => erased(all, place(all, checkOf("bottleStowed")))),
  ],
  [
    "calls a cart stowed that was not",
    "RTN-11",
    () => atWheels(1, checkOf("cartStowed"), { fact: { type: "checked", check: "cartStowed", good: false } }),
  ],
];

function checkOf(check: string): Match {
  return (fact) => fact.type === "checked" && fact.check === check;
}

function readingOf(engine: number): Match {
  return (fact) => fact.type === "reading" && fact.engine === engine;
}

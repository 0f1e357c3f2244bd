import { fill } from "../../shared/asks/ask.ts";
import { askedOf } from "../../shared/asks/asked.ts";
import { postHeld } from "../../shared/posts/postHeld.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import type { Quantity } from "../../shared/protocol/quantity.ts";
import { ANSWERS, FIRE_PLACES, SIGNAL_KINDS } from "../../shared/protocol/signals.ts";
import { stageAfter } from "../../shared/protocol/stages.ts";
import { purposeOf, type SessionState } from "../../shared/session/state.ts";
import { CREW, ed, fay, onDevice, type Person, type Say } from "./given.ts";

/** Four people who may hold posts, an observer, a spare qualified for all, and one of them on a second device. */
export const PEOPLE: readonly Person[] = [
  ...Object.values(CREW),
  ed,
  fay,
  onDevice(CREW.cockpit, "second-tablet"),
];

/** Whole numbers that make a step. Any four give a step, so that a failing walk can be shortened. */
export type Dice = readonly [who: number, what: number, which: number, figure: number];

const at = <T>(list: readonly T[], die: number): T => list[die % list.length] as T;
const STOPS = ["hold", "cut", "cutAll", "fire", "turning"] as const;

/**
 * Returns an action that one person could try in this state: mostly what is asked of their post, sometimes anything
 * else.
 */
export function tried(
  state: SessionState,
  dice: Dice,
  now: number,
  people = PEOPLE,
): { who: Person; action: Say } {
  const [whoDie, what, which, figureDie] = dice;
  const who = (what % 4 > 0 ? pressed(state, whoDie, now, people) : null) ?? at(people, whoDie);
  const post = postHeld(state, who);
  const asked = what % 20 < 17 && post !== null ? answerTo(state, post, dice, now) : null;
  if (asked) return { who, action: asked };
  const engine = (which % 5) + 1;
  const ref = Math.max(1, state.seq - (figureDie % 40));
  switch (what % 10) {
    case 0:
      return {
        who,
        action: { type: "send", kind: at(SIGNAL_KINDS, which), engine, ref, ...figures(figureDie) },
      };
    case 1:
      return {
        who,
        action: { type: "send", kind: at(STOPS, which), engine, place: at(FIRE_PLACES, figureDie) },
      };
    case 2:
      return { who, action: { type: "claimPost", post: at(POSTS, which) } };
    case 3: {
      const open = state.signals.map((s) => s.id);
      const signal = open.length > 0 ? at(open, which) : ref;
      return { who, action: { type: "answer", signal, answer: at(ANSWERS, figureDie), engine } };
    }
    case 4:
      return { who, action: course(state, post ?? at(POSTS, which), dice) };
    case 5: {
      const stops = [...state.holds, ...state.cuts, ...state.fires].map((s) => s.id);
      const kind = at(["release", "resetCut", "fireOut"] as const, figureDie);
      return {
        who,
        action: { type: "send", kind, ref: stops.length > 0 ? at(stops, which) : 1, note: "safe now" },
      };
    }
    case 6:
      return {
        who,
        action: {
          type: "send",
          kind: at(SIGNAL_KINDS, which),
          engine,
          channel: "hand",
          seenFrom: at(POSTS, figureDie),
          ...figures(what),
        },
      };
    case 7:
      return {
        who,
        action: {
          type: "reading",
          gauge: "oilPressure",
          engine,
          reading: { value: figureDie % 210, unit: "psi" },
        },
      };
    case 8:
      return {
        who,
        action: {
          type: "override",
          condition: at(state.type.conditions, which),
          engine,
          reason: "short of hands",
        },
      };
    default:
      return { who, action: { type: "send", kind: "readyToStart", engine, note: "as agreed" } };
  }
}

/** Returns the action that `tried` gives to this person; null when it gives one to somebody else. */
export function triedBy(
  who: Person,
  state: SessionState,
  dice: Dice,
  now: number,
  people: readonly Person[],
): Say | null {
  const [, what] = dice;
  // Nobody needs to ask all the others to know that it is one of them.
  const others = what % 4 > 0 && !isPressed(state, who, now) && people.some((p) => isPressed(state, p, now));
  if (others) return null;
  const move = tried(state, dice, now, people);
  return move.who === who ? move.action : null;
}

/** Returns a person of whom the start itself asks something now. */
function pressed(state: SessionState, die: number, now: number, people: readonly Person[]): Person | null {
  const busy = people.filter((p) => isPressed(state, p, now));
  return busy.length === 0 ? null : at(busy, die);
}

function isPressed(state: SessionState, person: Person, now: number): boolean {
  const post = postHeld(state, person);
  return post !== null && askedOf(state, post, now).some((a) => a.weight <= 2 && a.choices.length > 0);
}

function course(state: SessionState, post: (typeof POSTS)[number], [, , which, figureDie]: Dice): Say {
  switch (figureDie % 8) {
    case 0:
      return { type: "leavePost", post };
    case 1:
      return { type: "offerPost", post, to: at(PEOPLE, which).id };
    case 2:
      return { type: "acceptPost", post: at(POSTS, which) };
    case 3:
      return { type: "vacatePost", post: at(POSTS, which), reason: "gone" };
    case 4:
      return { type: "confirmBrief" };
    case 5:
      return { type: "amendPlan", order: at([[1, 2, 3, 4], [3, 4], [2]], which), reason: "wind" };
    case 6:
      return { type: "advance", to: stageAfter(state.stage, purposeOf(state)) ?? "closed" };
    default:
      return state.alerts.length > 0
        ? { type: "shelveAlert", alert: at(state.alerts, which).id, minutes: 1 }
        : { type: "present" };
  }
}

function figures(die: number) {
  return {
    volts: { value: 20 + (die % 15), unit: "V" },
    pressure: { value: 400 + (die % 8) * 100, unit: "psi" },
  } as const;
}

/** Returns one of the choices offered to a post, filled in, mostly correctly. */
function answerTo(
  state: SessionState,
  post: (typeof POSTS)[number],
  [, , which, figureDie]: Dice,
  now: number,
): Action | null {
  const asks = askedOf(state, post, now);
  if (asks.length === 0) return null;
  const asked = figureDie % 6 === 0 ? at(asks, which) : asks.find((a) => a.choices.length > 0);
  const chosen = asked?.choices[figureDie % 8 === 1 ? which % Math.max(1, asked.choices.length) : 0];
  if (!asked || !chosen) return null;
  const unit = chosen.need?.is === "figure" ? chosen.need.unit : "V";
  return fill(chosen, {
    engine: figureDie % 17 === 0 ? 1 : (asked.engine ?? 1),
    figure: rightFigure(unit, asked.say),
    reason: "safe now",
    blades: { blades: 9, resistance: false },
    weather: { windKt: 5 },
  });
}

export function rightFigure(unit: Quantity["unit"], say: string): Quantity {
  const value = { V: say === "check" ? 25 : 28, psi: say === "brakesSet" ? 1000 : 60, degC: 50 }[
    unit as "V" | "psi" | "degC"
  ];
  return { value: value ?? 1, unit };
}

import { describe, expect, it } from "vitest";
import { ALERT_INPUTS, ALERT_STATES, alertNext } from "../../shared/alerts/machine.ts";

/**
 * ISA-18.2 / IEC 62682 states and transitions, from memory, written here independently: one row per state, one column
 * per input in the order raise, clear, acknowledge, reset, shelve, unshelve, suppress, unsuppress. "-" changes nothing,
 * "x" is refused. "live" is active unacknowledged while the cause is there and normal when it is not. Where the
 * standard leaves the choice, the project decides: a shelf is not extended before it has ended, and a latching alert is
 * neither shelved nor suppressed from any state.
 */
const STATES: Record<string, (typeof ALERT_STATES)[number]> = {
  A: "normal",
  B: "activeUnacknowledged",
  C: "activeAcknowledged",
  D: "returnedUnacknowledged",
  E: "latchedUnacknowledged",
  F: "latchedAcknowledged",
  G: "shelved",
  H: "suppressed",
};
const INPUTS = ["raise", "clear", "acknowledge", "reset", "shelve", "unshelve", "suppress", "unsuppress"];

const ORDINARY = `
A B - - - G - H -
B - D C x G - H -
C - A - x G - H -
D B - A - G - H -
E B - F x - - - -
F B - - A - - - -
G - - x x - live - -
H - - - - - - - live`;

const LATCHING = `
A B - - - x - x -
B - E C x x - x -
C - F - x x - x -
D B - A - x - x -
E B - F x x - x -
F B - - A x - x -
G - - x x x live x -
H - - - - x - x live`;

function cells(table: string, latching: boolean) {
  return table
    .trim()
    .split("\n")
    .flatMap((line) => {
      const [from = "", ...row] = line.split(" ");
      return row.flatMap((to, i) =>
        [true, false].map((active) => {
          const live = active ? "activeUnacknowledged" : "normal";
          const next = to === "live" ? live : to === "-" ? "same" : to === "x" ? "refused" : STATES[to];
          return { from: STATES[from], input: INPUTS[i], latching, active, next };
        }),
      );
    });
}

const CELLS = [...cells(ORDINARY, false), ...cells(LATCHING, true)];

describe("the states of an alert at one post", () => {
  it("[ALR-3] the table names every state and every input", () => {
    expect(CELLS).toHaveLength(ALERT_STATES.length * ALERT_INPUTS.length * 4);
    expect(new Set(CELLS.map((c) => c.from))).toEqual(new Set(ALERT_STATES));
    expect(new Set(CELLS.map((c) => c.input))).toEqual(new Set(ALERT_INPUTS));
  });

  it.each(CELLS)(
    "[ALR-3, ALR-6] $from on $input, latching $latching, active $active: $next",
    ({ from, input, latching, active, next }) => {
      if (!from) throw new Error("no such state");
      const given = ALERT_INPUTS.find((i) => i === input);
      if (!given) throw new Error("no such input");
      expect(alertNext(from, given, { latching, active })).toBe(next);
    },
  );
});

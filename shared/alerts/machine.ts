/**
 * The states of one alert at one post, per ISA-18.2 / IEC 62682 (states and table from memory, as set out in their
 * public descriptions). A latching alert stays after its cause is gone until it is acknowledged and then reset.
 */
export const ALERT_STATES = [
  "normal",
  "activeUnacknowledged",
  "activeAcknowledged",
  "returnedUnacknowledged",
  "latchedUnacknowledged",
  "latchedAcknowledged",
  "shelved",
  "suppressed",
] as const;
export type AlertState = (typeof ALERT_STATES)[number];

export const ALERT_INPUTS = [
  "raise",
  "clear",
  "acknowledge",
  "reset",
  "shelve",
  "unshelve",
  "suppress",
  "unsuppress",
] as const;
export type AlertInput = (typeof ALERT_INPUTS)[number];

/** Inputs of the table besides the state: whether the alert latches, and whether its cause is there now. */
export interface AlertNature {
  latching: boolean;
  active: boolean;
}

/** Returns the next state; "same" if the input changes nothing, "refused" if it is not allowed. */
export function alertNext(
  state: AlertState,
  input: AlertInput,
  { latching, active }: AlertNature,
): AlertState | "same" | "refused" {
  const live: AlertState = active ? "activeUnacknowledged" : "normal";
  // Fire, cut and hold latch. A latching alert is neither shelved nor suppressed.
  if ((input === "shelve" || input === "suppress") && latching) return "refused";
  switch (state) {
    case "normal":
      return pick(input, { raise: "activeUnacknowledged", shelve: "shelved", suppress: "suppressed" });
    case "activeUnacknowledged":
      return pick(input, {
        clear: latching ? "latchedUnacknowledged" : "returnedUnacknowledged",
        acknowledge: "activeAcknowledged",
        reset: "refused",
        shelve: "shelved",
        suppress: "suppressed",
      });
    case "activeAcknowledged":
      return pick(input, {
        clear: latching ? "latchedAcknowledged" : "normal",
        reset: "refused",
        shelve: "shelved",
        suppress: "suppressed",
      });
    case "returnedUnacknowledged":
      return pick(input, {
        raise: "activeUnacknowledged",
        acknowledge: "normal",
        shelve: "shelved",
        suppress: "suppressed",
      });
    case "latchedUnacknowledged":
      return pick(input, {
        raise: "activeUnacknowledged",
        acknowledge: "latchedAcknowledged",
        reset: "refused",
      });
    case "latchedAcknowledged":
      return pick(input, { raise: "activeUnacknowledged", reset: "normal" });
    case "shelved":
      return pick(input, { acknowledge: "refused", reset: "refused", unshelve: live });
    case "suppressed":
      return pick(input, { unsuppress: live });
  }
}

type Row = Partial<Record<AlertInput, AlertState | "refused">>;

function pick(input: AlertInput, row: Row): AlertState | "same" | "refused" {
  return row[input] ?? "same";
}

/** Returns true while a person at that post must still act on it. */
export function needsPerson(state: AlertState): boolean {
  return (
    state === "activeUnacknowledged" ||
    state === "returnedUnacknowledged" ||
    state === "latchedUnacknowledged"
  );
}

import { describe, expect, it } from "vitest";
import { SIGNAL_KINDS, type SignalKind } from "../../shared/protocol/signals.ts";
import { signalOf } from "../../shared/signals/all.ts";
import { rowsOf, yesNo } from "./specTable.ts";

const ROWS = rowsOf("signal");

function cellsOf(kind: SignalKind): string[] {
  const { from, engine, witnessable, incident, answer, remind, escalate } = signalOf(kind);
  const first = from === "anyone" ? null : (from[0] ?? null);
  const said = [answer.due(first).join(", "), answer.allowed.join(", ")];
  return [kind, engine, yesNo(witnessable), yesNo(incident), ...said, remind ?? "", escalate ?? ""];
}

describe("the table of signals", () => {
  it("[SIG-21] has one row for each kind, in the order of the definitions", () => {
    expect(ROWS.map(([kind]) => kind)).toEqual(SIGNAL_KINDS);
  });

  it.each(SIGNAL_KINDS)("[SIG-21] says the same as the definition of %s", (kind) => {
    expect(ROWS.find(([name]) => name === kind)).toEqual(cellsOf(kind));
  });
});

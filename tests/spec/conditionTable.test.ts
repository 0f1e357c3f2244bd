import { describe, expect, it } from "vitest";
import { DEFINITIONS } from "../../shared/conditions/all.ts";
import type { ConditionDefinition } from "../../shared/conditions/definition.ts";
import { CONDITION_IDS } from "../../shared/protocol/conditions.ts";
import { rowsOf, yesNo } from "./specTable.ts";

const ROWS = rowsOf("condition");

function cellsOf(condition: ConditionDefinition): string[] {
  const { id, owners, check, scope, freshness, mayBeSetAside, askedBefore } = condition;
  const guards = Object.entries(scope).map(([what, applies]) => `${what} ${applies}`);
  const metBy = owners ? owners.join(", ") : `check \`${check}\``;
  return [id, metBy, guards.join(", "), freshness ?? "", yesNo(mayBeSetAside), yesNo(askedBefore)];
}

describe("the table of conditions", () => {
  it("[CON-21] has one row for each condition, in the order of the definitions", () => {
    expect(ROWS.map(([id]) => id)).toEqual(CONDITION_IDS);
  });

  it.each(DEFINITIONS.map((definition) => [definition.id, definition] as const))(
    "[CON-21] says the same as the definition of %s",
    (id, definition) => {
      expect(ROWS.find(([name]) => name === id)).toEqual(cellsOf(definition));
    },
  );
});

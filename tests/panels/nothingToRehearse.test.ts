import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import type { PlanBar } from "../../shared/house/planBar.ts";
import type { RegisteredAircraft } from "../../web/net/aircraft.ts";
import { NothingToRehearse } from "../../web/pages/rehearsal/NothingToRehearse.tsx";
import { register } from "../../web/words/en/register.ts";

const row = (id: string, bar: PlanBar) => ({ id, name: `Name of ${id}`, bar }) as RegisteredAircraft;

/** Returns the paragraphs, the keys and the rows of the page for this house. */
function shown(rows: RegisteredAircraft[], supervisor: boolean) {
  const html = renderToStaticMarkup(createElement(NothingToRehearse, { rows, supervisor }));
  const inside = (tag: string) =>
    [...html.matchAll(new RegExp(`<${tag}[^>]*>(.*?)</${tag}>`, "g"))].map(([, words = ""]) =>
      words.replaceAll(/<[^>]+>/g, "|"),
    );
  return { says: inside("p"), keys: inside("button") };
}

describe("a house in which no aircraft can be rehearsed", () => {
  it("[RHS-65] says that an approved type and an aircraft are missing, and leads a supervisor to both", () => {
    const { says, keys } = shown([], true);
    expect(says).toHaveLength(1);
    expect(says[0]).toContain("an aircraft whose type is approved");
    expect(keys).toEqual(["Aircraft types", "Aircraft"]);
  });

  it("[RHS-65] tells everybody else who can do it, and shows no key that does nothing", () => {
    const { says, keys } = shown([], false);
    expect(says[1]).toContain("supervisor");
    expect(keys).toEqual([]);
  });

  it("[RHS-65] names each aircraft that is there with its reason and its cure", () => {
    const bar: PlanBar = { is: "noneApproved", typeId: "wren" };
    const { keys } = shown([row("QX-ONE", bar)], false);
    expect(keys).toEqual([`|Name of QX-ONE||${register.bar(bar)}. ${register.cure(bar)}|`]);
  });
});

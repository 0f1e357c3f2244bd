import { expect, it } from "vitest";
import { foremost, type Held } from "../../web/posts/shared/foremost.ts";
import type { AskView } from "../../web/ui/askView.ts";

const ask = (key: string, rank: number, dueAt: number | null = null) => ({ key, rank, dueAt }) as AskView;
const held = (key: string, more: Partial<Held> = {}): Held => ({ key, over: null, busy: false, ...more });

it("[PAN-15] shows the first ask in order to a person who has chosen none", () => {
  expect(foremost([ask("a", 2), ask("b", 3)], null)?.key).toBe("a");
  expect(foremost([], null)).toBeUndefined();
});

it("[PAN-15] replaces the shown ask by a heavier one, or by one of the same weight that has a time limit if the shown one has none", () => {
  expect(foremost([ask("present", 2, 9), ask("readBack", 2, 5)], held("readBack"))?.key).toBe("readBack");
  expect(foremost([ask("settle", 2), ask("readBack", 2, 5)], held("readBack"))?.key).toBe("readBack");
  expect(foremost([ask("readBack", 2, 5), ask("present", 2, 9)], held("present"))?.key).toBe("readBack");
  expect(foremost([ask("settle", 2), ask("present", 2, 9)], held("present"))?.key).toBe("settle");
  expect(foremost([ask("chocks", 3, 9), ask("check", 3)], held("check"))?.key).toBe("chocks");
  expect(foremost([ask("readBack", 2), ask("check", 3)], held("check"))?.key).toBe("readBack");
});

it("[PAN-15] interrupts a person's entry for danger and alerts only", () => {
  const busy = held("check", { busy: true });
  expect(foremost([ask("readBack", 2), ask("check", 3)], busy)?.key).toBe("check");
  expect(foremost([ask("alert", 1), ask("check", 3)], busy)?.key).toBe("alert");
  expect(foremost([ask("fire", 0), ask("check", 3)], busy)?.key).toBe("fire");
});

it("[PAN-15] keeps an ask that the person chose until a new one is more pressing", () => {
  const picked = held("shutDown", { over: "drill" });
  expect(foremost([ask("drill", 0), ask("shutDown", 2)], picked)?.key).toBe("shutDown");
  expect(foremost([ask("fire", 0), ask("drill", 0), ask("shutDown", 2)], picked)?.key).toBe("fire");
});

it("[PAN-15] an ask that is no longer asked is dropped", () => {
  expect(foremost([ask("b", 3)], held("a", { busy: true }))?.key).toBe("b");
});

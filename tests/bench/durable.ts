import { bareRound, ourRound, type Shape } from "./fan-out.ts";
import { keep } from "./histogram.ts";
import type { LoadResult } from "./load.ts";
import { headings, row } from "./table.ts";

const median = (of: readonly number[]): number => [...of].sort((a, b) => a - b)[of.length >> 1] ?? Number.NaN;

/**
 * Measures from a command to every panel, through SQLite with synchronous FULL, beside a bare Socket.IO broadcast
 * of the same payload in the same run. Compare the ratios, because both depend on the machine's speed. The bare
 * server runs before and after each round.
 * @param rounds an odd number, because the middle round is reported: a disk that stalls once spoils one round only
 */
export async function benchDurable(shape: Shape, rounds: number): Promise<boolean> {
  console.log(headings());
  const bares: LoadResult[] = [await bareRound(shape)];
  const ours: LoadResult[] = [];
  for (let round = 0; round < rounds; round += 1) {
    ours.push(await ourRound(shape));
    bares.push(await bareRound(shape));
  }
  const ws = await bareRound(shape, "ws");

  const all = ours.map((one, i) => ({
    one,
    before: bares[i] as LoadResult,
    after: bares[i + 1] as LoadResult,
  }));
  for (const { one, before } of all) {
    console.log(row("bare broadcast: to panels", before.toPanels));
    console.log(row("Chockside: durable, to panels", one.toPanels));
    console.log(row("Chockside: acknowledged", one.toAck));
  }
  console.log(row("bare broadcast: to panels", (bares.at(-1) as LoadResult).toPanels));
  console.log(row("ws alone, for the record: to panels", ws.toPanels));
  for (const key of ["p50", "p99"] as const) {
    const ratios = all.map(
      ({ one, before, after }) => (2 * one.toPanels[key]) / (before.toPanels[key] + after.toPanels[key]),
    );
    const each = ratios.map((ratio) => ratio.toFixed(2)).join(", ");
    console.log(`\nto every panel, ${key} times bare: ${median(ratios).toFixed(2)} (${each})`);
  }
  const lacking = ours.filter((one) => one.unanswered > 0 || one.toPanels.count !== one.sent * shape.panels);
  console.log(
    `rounds in which a verdict was another than expected or an event was not delivered: ${lacking.length} of ${rounds}`,
  );
  keep("fan-out", { shape, bares, ours, ws });
  return lacking.length === 0;
}

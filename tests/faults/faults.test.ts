import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { prepareServer } from "../live/server-process.ts";
import { type History, historyFaults, type Sent } from "./history.ts";
import { faultRun, SUFFERINGS } from "./run.ts";

let folder: string;
beforeAll(() => {
  prepareServer();
  folder = mkdtempSync(join(tmpdir(), "chockside-faults-"));
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("links that suffer", () => {
  it("[FLT-1] lose, double and reorder nothing that was answered: delay, loss, resets, half-open ends, five seconds of nothing", async () => {
    const { slow, lossy, torn, dark } = SUFFERINGS;
    const run = await faultRun(join(folder, "faults.db"), {
      seed: 1,
      ms: 7_000,
      sufferings: [slow, lossy, torn, dark],
    });
    expect(run.faults).toEqual([]);
    // The run was as bad as intended, and commands were answered all the same.
    const [, two, three, four] = run.counts;
    expect(two?.stalls).toBeGreaterThan(3);
    expect(three?.resets).toBeGreaterThan(1);
    expect(three?.halfOpens).toBeGreaterThan(0);
    expect(four?.blackouts).toBeGreaterThan(0);
    expect(run.answered).toBeGreaterThan(40);
  });
});

describe("the checker of histories", () => {
  const event = (seq: number, command: string) =>
    ({
      v: 1,
      session: "s",
      seq,
      at: seq,
      command,
      fact: { type: "sent", kind: "hold" },
    }) as unknown as SessionEvent;
  const sent = (id: string, sentAt: number, answeredAt: number, seq: number, saw = 0): Sent => ({
    id,
    session: "s",
    sentAt,
    saw,
    answers: [{ at: answeredAt, seq }],
  });
  const history = (list: Sent[], seen: SessionEvent[] = []): History => ({ client: "one", sent: list, seen });
  const [a, b] = [event(1, "a"), event(2, "b")];
  const good = [sent("a", 1, 2, 1), sent("b", 3, 4, 2, 1)];

  it("[FLT-2] finds nothing wrong where nothing is", () => {
    expect(historyFaults([a, b], [history(good, [a, b])])).toEqual([]);
    // Two commands sent at the same time may come in either order.
    expect(
      historyFaults(
        [b, a].map((e, i) => ({ ...e, seq: i + 1 })),
        [history([sent("a", 1, 4, 2), sent("b", 2, 3, 1)])],
      ),
    ).toEqual([]);
  });

  it.each<[string, SessionEvent[], Sent[], SessionEvent[], RegExp]>([
    ["an answered command that is not there", [a], good, [], /b was answered with 2, which is not/],
    ["one that is there twice", [a, b, event(3, "a")], good, [], /a is in the record 2 times/],
    ["one at another number", [event(1, "b"), event(2, "a")], good, [], /was answered with 1, which is not/],
    ["one nobody sent", [a, b, event(3, "x")], good, [], /x was sent by nobody/],
    [
      "a later one that comes first",
      [b, a].map((e, i) => ({ ...e, seq: i + 1 })),
      [sent("a", 1, 2, 2), sent("b", 3, 4, 1)],
      [],
      /b at 1 was sent after a at 2/,
    ],
    [
      "one before what its sender had seen",
      [a, b],
      [sent("a", 1, 2, 1), sent("b", 3, 4, 2, 2)],
      [],
      /b is at 2, before event 2/,
    ],
    ["an event shown otherwise than kept", [a, b], good, [{ ...a, at: 9 }], /saw another event 1/],
    ["an event shown that is not kept", [a, b], good, [event(3, "a")], /saw another event 3/],
    ["events shown out of order", [a, b], good, [b, a], /saw event 1 after 2/],
    ["an event shown twice", [a, b], good, [a, a], /saw event 1 after 1/],
  ])("[FLT-2] finds %s", (_what, log, list, seen, fault) => {
    expect(historyFaults(log, [history(list, seen)]).join("\n")).toMatch(fault);
  });
});

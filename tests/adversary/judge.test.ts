import { describe, expect, it } from "vitest";
import { FORGERIES, filesOf, three, two } from "./forgeries.ts";
import { type Judgement, judged } from "./judged.ts";
import { back, RETURN_FORGERIES, wheels } from "./returnForgeries.ts";
import { sealedLines } from "./sealed.ts";
import { inSession, untold } from "./tamper.ts";

const rulesIn = (judgement: Judgement | undefined) => judgement?.findings.map((f) => f.rule) ?? [];

describe("the judge in Python", () => {
  const all = [...FORGERIES, ...RETURN_FORGERIES];
  const found = judged(all.map(([, , records]) => filesOf(records())));

  it("[PRF-4] finds nothing in the records of three sessions, of two at once and of two returns, with or without the aircraft's own", () => {
    const whole = [three, two, back, wheels].map(filesOf);
    const alone = [three, two, back, wheels].map((records) => records.sessions.map(sealedLines));
    const said = judged([...whole, ...alone]);
    expect(said.flatMap((s) => s.findings)).toEqual([]);
    expect(said.map((s) => s.sessions)).toEqual([3, 2, 2, 2, 3, 2, 2, 2]);
    expect(said[0]?.events).toBe(three.record.length + three.sessions.flat().length);
  });

  it("[PRF-4] finds a changed byte by the chain", () => {
    const [first = "", ...others] = filesOf(three);
    const changedByte = first.replace("somebody walks there", "nobody walks there");
    expect(changedByte).not.toBe(first);
    expect(rulesIn(judged([[changedByte, ...others]])[0])).toContain("CAN-3");
  });

  it.each(all.map(([did, rule], i) => [did, rule, i] as const))(
    "[PRF-4] finds who %s (%s)",
    (_did, rule, i) => {
      expect(rulesIn(found[i])).toContain(rule);
    },
  );

  it("[PRF-4] finds a lost stop without the aircraft's record too", () => {
    const { sessions } = inSession(three, 1, (all) => untold(all, "hold"));
    expect(rulesIn(judged([sessions.map(sealedLines)])[0])).toContain("STN-1");
  });
});

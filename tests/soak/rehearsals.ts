import { checkFile } from "../../server/evidence/check-file.ts";
import { judged } from "../adversary/judged.ts";
import { randomRun } from "../rehearsal/random.ts";

/** Runs judged together. */
const BATCH = 100;

/** Plays random scripts with random crews. Prints each that is stuck or breaks a rule, and returns true for none. */
export function rehearsalSoak(runs: number, first: number): boolean {
  let faults = 0;
  for (let from = first; from < first + runs; from += BATCH) {
    const seeds = Array.from({ length: Math.min(BATCH, first + runs - from) }, (_, i) => from + i);
    const played = seeds.map(randomRun);
    const verdicts = judged(played.map(({ text }) => [text]));
    for (const [i, { seed, stuck, text }] of played.entries()) {
      const { findings = [] } = verdicts[i] ?? {};
      const file = checkFile(text);
      if (stuck === null && file.ok && findings.length === 0) continue;
      faults += 1;
      console.log(
        `FAULT seed ${seed}: ${stuck ?? ""} ${file.ok ? "" : file.says} ${JSON.stringify(findings)}`,
      );
    }
    console.log(`${from + seeds.length - first} runs, ${faults} at fault`);
  }
  return faults === 0;
}

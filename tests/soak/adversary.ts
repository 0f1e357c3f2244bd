import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Campaign, campaign } from "../adversary/campaign.ts";
import { judged } from "../adversary/judged.ts";

/** Sessions of one aircraft, one campaign. */
const OF_ONE_AIRCRAFT = 4;
/** Campaigns that the judge is given together. */
const TOGETHER = 10;

/** Plays that many sessions, a seed for each aircraft, and has them judged. Returns true when nothing was found. */
export async function adversarySoak(sessions: number, first: number): Promise<boolean> {
  const began = performance.now();
  const sum = { sessions: 0, events: 0, accepted: 0, refused: 0, cranked: 0, kills: 0, found: 0 };
  const many = Math.ceil(sessions / OF_ONE_AIRCRAFT);
  for (let done = 0; done < many; ) {
    const played: Campaign[] = [];
    for (; played.length < TOGETHER && done < many; done += 1) {
      const left = Math.min(OF_ONE_AIRCRAFT, sessions - done * OF_ONE_AIRCRAFT);
      played.push(await campaign(first + done, left));
    }
    const judgements = judged(played.map((c) => c.files));
    played.forEach((c, i) => {
      const { events, findings } = judgements[i] ?? { events: 0, findings: [] };
      const faults = [...c.faults, ...findings.map((f) => JSON.stringify(f))];
      sum.sessions += c.sessions;
      sum.events += events;
      sum.accepted += c.accepted;
      sum.refused += c.refused;
      sum.cranked += c.kinds.get("cranking") ?? 0;
      sum.kills += c.kills;
      sum.found += faults.length;
      for (const fault of faults) console.log(`FAULT seed ${c.seed}: ${fault}`);
      if (faults.length > 0) console.log(`its records are kept in ${kept(c)}`);
    });
    console.log(`${Math.round((performance.now() - began) / 1000)} s: ${JSON.stringify(sum)}`);
  }
  return sum.found === 0;
}

function kept({ seed, files }: Campaign): string {
  const folder = mkdtempSync(join(tmpdir(), `chockside-adversary-${seed}-`));
  files.forEach((text, i) => {
    writeFileSync(join(folder, `${i}.ndjson`), text);
  });
  return folder;
}

import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

/** A rule that the judge found broken: in which session or record, at which event. */
export interface Finding {
  rule: string;
  session: string;
  seq: number;
  text: string;
}

export interface Judgement {
  events: number;
  sessions: number;
  findings: Finding[];
}

const JUDGE = fileURLToPath(new URL("judge.py", import.meta.url));

/**
 * Returns what the judge in Python says of each aircraft's exported records, in order.
 * @param aircraft the texts of each aircraft's files
 * @param slackMs how long a change in one session may take to reach another
 * @throws Error when the judge itself fails
 */
export function judged(aircraft: readonly (readonly string[])[], slackMs = 0): Judgement[] {
  const root = mkdtempSync(join(tmpdir(), "chockside-judge-"));
  try {
    const folders = aircraft.map((files, i) => {
      const folder = join(root, String(i));
      mkdirSync(folder);
      files.forEach((text, k) => {
        writeFileSync(join(folder, `${k}.ndjson`), text);
      });
      return folder;
    });
    const { stdout, stderr } = spawnSync("python3", ["-B", JUDGE, String(slackMs), ...folders], {
      encoding: "utf8",
      maxBuffer: 256 * 1024 * 1024,
    });
    const lines = stdout.split("\n").filter((line) => line !== "");
    if (lines.length !== aircraft.length) throw new Error(`the judge failed: ${stderr}`);
    return lines.map((line) => JSON.parse(line) as Judgement);
  } finally {
    rmSync(root, { recursive: true, force: true });
  }
}

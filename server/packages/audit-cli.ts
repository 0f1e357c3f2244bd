// npm run audit: asks npm's registry for known faults of our packages, and stores the answer beside the
// database for the doctor. The exit code is 1 when there are any, or when it could not ask.
import { type ExecFileSyncOptionsWithStringEncoding, execFileSync } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { readConfig } from "../config.ts";
import { lockNow, readRecord, recordFile, recordOf } from "./record.ts";

try {
  const { data } = readConfig(process.env);
  const record = recordOf(ask(), lockNow(), Date.now(), readRecord(data));
  const file = recordFile(data);
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, `${JSON.stringify(record, null, 2)}\n`);
  const faults = Object.entries(record.faults);
  for (const [name, { severity, since }] of faults)
    console.log(`${name}: ${severity}, known here since ${since}`);
  console.log(`${faults.length} packages with known faults; kept in ${file}. More: npm audit --omit=dev`);
  process.exitCode = faults.length === 0 ? 0 : 1;
} catch (error) {
  console.error(`chockside: the packages could not be checked: ${(error as Error).message}`);
  process.exitCode = 1;
}

function ask(): unknown {
  const options: ExecFileSyncOptionsWithStringEncoding = {
    encoding: "utf8",
    stdio: ["ignore", "pipe", "ignore"],
    // npm is a script on Windows and needs a shell.
    shell: process.platform === "win32",
  };
  try {
    return JSON.parse(execFileSync("npm", ["audit", "--omit=dev", "--json"], options));
  } catch (error) {
    // npm exits with 1 when it knows faults, and still prints the report.
    const { stdout } = error as { stdout?: string };
    if (!stdout) throw error;
    return JSON.parse(stdout);
  }
}

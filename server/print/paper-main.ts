import { writeFileSync } from "node:fs";
import { createInterface } from "node:readline";
import { printJob } from "./sheet-job.ts";

/** The process that prints one sheet: reads a job from standard input, writes its PDF to standard output. */
try {
  // The kernel shall end this process, not the server, if the machine runs out of memory.
  writeFileSync("/proc/self/oom_score_adj", "900");
} catch {
  // Only Linux has it.
}
process.stdout.write(await printJob(createInterface({ input: process.stdin })));

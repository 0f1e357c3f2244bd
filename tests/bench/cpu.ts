import { readFileSync } from "node:fs";

/** Ticks a second in which Linux counts processor time (USER_HZ). */
const HZ = 100;

/** Processor time a process has used, seconds. Linux alone. */
export function cpuSeconds(pid: number): number {
  const fields = readFileSync(`/proc/${pid}/stat`, "utf8").split(") ").at(-1)?.split(" ") ?? [];
  return (Number(fields[11]) + Number(fields[12])) / HZ;
}

/** Memory a process holds, MB. Linux alone. */
export function residentMb(pid: number): number {
  return Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, "utf8"))?.[1]) / 1024;
}

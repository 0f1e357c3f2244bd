import { readFileSync } from "node:fs";

/** Ticks per second in which Linux counts processor time (USER_HZ). */
const HZ = 100;

/** Returns the processor time that a process has used, in seconds. Linux only. */
export function cpuSeconds(pid: number): number {
  const fields = readFileSync(`/proc/${pid}/stat`, "utf8").split(") ").at(-1)?.split(" ") ?? [];
  return (Number(fields[11]) + Number(fields[12])) / HZ;
}

/** Returns the memory that a process holds, in MB. Linux only. */
export function residentMb(pid: number): number {
  return Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, "utf8"))?.[1]) / 1024;
}

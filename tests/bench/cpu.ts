import { readdirSync, readFileSync } from "node:fs";

/** Ticks per second in which Linux counts processor time (USER_HZ). */
const HZ = 100;

/** Returns the processor time that a process has used, in seconds. Linux only. */
export function cpuSeconds(pid: number): number {
  const fields = readFileSync(`/proc/${pid}/stat`, "utf8").split(") ").at(-1)?.split(" ") ?? [];
  return (Number(fields[11]) + Number(fields[12])) / HZ;
}

/** Returns the time that a process's threads were ready to run and waited for a core, in seconds. Linux only. */
export function waitedSeconds(pid: number): number {
  const waited = readdirSync(`/proc/${pid}/task`).map((thread) => {
    const [, nanoseconds] = readFileSync(`/proc/${pid}/task/${thread}/schedstat`, "utf8").split(" ");
    return Number(nanoseconds);
  });
  return waited.reduce((sum, each) => sum + each, 0) / 1e9;
}

/** Returns the memory that a process holds, in MB. Linux only. */
export function residentMb(pid: number): number {
  return Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, "utf8"))?.[1]) / 1024;
}

/** Returns the processor time that all processes of this name have used, in seconds. Linux only. */
export function cpuSecondsOf(name: string): number {
  const pids = readdirSync("/proc").filter((pid) => /^\d+$/.test(pid) && nameOf(pid) === name);
  return pids.reduce((sum, pid) => sum + cpuSeconds(Number(pid)), 0);
}

/** Returns null when the process has ended meanwhile. */
function nameOf(pid: string): string | null {
  try {
    return readFileSync(`/proc/${pid}/comm`, "utf8").trim();
  } catch {
    return null;
  }
}

import { residentMb } from "./cpu.ts";
import { withServer } from "./fan-out.ts";
import { openLine } from "./lines.ts";

const SESSIONS = 1_000;
const PANELS = 4;

/** Measures a server's memory with no session, then with a thousand open sessions, then with four panels on each. */
export async function benchMemory(): Promise<boolean> {
  let empty = 0;
  await withServer({ sessions: 0, panels: PANELS }, async ({ pid }) => {
    empty = residentMb(pid);
  });
  await withServer({ sessions: SESSIONS, panels: PANELS }, async ({ pid, url }, sessions, tokens) => {
    const planned = residentMb(pid);
    for (const [i, session] of sessions.entries())
      for (let panel = 0; panel < PANELS; panel += 1) {
        const line = await openLine("socket.io", url, tokens[i % tokens.length] ?? "");
        await line.watch(session);
      }
    const watched = residentMb(pid);
    const each = (more: number, n: number) => `${((more * 1_024) / n).toFixed(0)} kB each`;
    console.log(`resident, nothing held:                    ${empty.toFixed(0)} MB`);
    console.log(
      `${SESSIONS} sessions with a post held:             ${planned.toFixed(0)} MB, ${each(planned - empty, SESSIONS)}`,
    );
    console.log(
      `and ${PANELS} connected panels on each:              ${watched.toFixed(0)} MB, ${each(watched - planned, SESSIONS * PANELS)}`,
    );
  });
  return true;
}

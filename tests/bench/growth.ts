import { bareRound, ourRound, type Shape } from "./fan-out.ts";
import { headings, row } from "./table.ts";

const SESSIONS = [10, 100, 1_000];
const PANELS = [1, 4, 16, 64];

/**
 * Measures the time to panels with more sessions at one total rate, and with more panels per session, beside the
 * bare broadcast.
 */
export async function benchGrowth(shape: Shape): Promise<boolean> {
  console.log(headings());
  let whole = true;
  const point = async (name: string, at: Shape) => {
    const [bare, ours] = [await bareRound(at), await ourRound(at)];
    console.log(row(`${name}, bare`, bare.toPanels));
    console.log(row(`${name}, Chockside`, ours.toPanels));
    const ratio = (key: "p50" | "p99") => (ours.toPanels[key] / bare.toPanels[key]).toFixed(2);
    console.log(`${"".padEnd(24)}times bare: p50 ${ratio("p50")}, p99 ${ratio("p99")}`);
    whole &&= ours.unanswered === 0 && ours.toPanels.count === ours.sent * at.panels;
  };
  for (const sessions of SESSIONS)
    await point(`${sessions} sessions x 4 panels`, { ...shape, sessions, panels: 4 });
  for (const panels of PANELS)
    await point(`50 sessions x ${panels} panels`, { ...shape, sessions: 50, panels });
  console.log(whole ? "every command reached every panel" : "NOT EVERY COMMAND REACHED EVERY PANEL");
  return whole;
}

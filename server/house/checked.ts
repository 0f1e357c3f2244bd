import { StartRefused } from "../start-refused.ts";

type Parsed<T> =
  | { success: true; data: T }
  | { success: false; error: { issues: { path: PropertyKey[]; message: string }[] } };

/**
 * Returns what was entered at the command line.
 * @throws StartRefused with every fault of it, and the usage
 */
export function checked<T>(parsed: Parsed<T>, usage: string): T {
  if (parsed.success) return parsed.data;
  const faults = parsed.error.issues.map((i) => `${i.path.join(".")} ${i.message}`.trim());
  throw new StartRefused(`${faults.join("; ")}\n${usage}`);
}

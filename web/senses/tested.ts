/** The person's answer about the test signal on this device. */
export type Tested = "no" | "reached" | "notReached";

const KEY = "chockside.testSignal";

export function keptTest(): Tested {
  const kept = sessionStorage.getItem(KEY);
  return kept === "reached" || kept === "notReached" ? kept : "no";
}

export function keepTest(tested: Tested): void {
  sessionStorage.setItem(KEY, tested);
}

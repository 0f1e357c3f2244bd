import type { Spread } from "./histogram.ts";

const WIDTH = 48;

export function headings(name = ""): string {
  return `${name.padEnd(WIDTH)}${"count".padStart(8)}${["p50", "p95", "p99", "max"].map((h) => h.padStart(9)).join("")}`;
}

export function row(name: string, s: Spread): string {
  const f = (n: number) => n.toFixed(2).padStart(9);
  return `${name.padEnd(WIDTH)}${String(s.count).padStart(8)}${f(s.p50)}${f(s.p95)}${f(s.p99)}${f(s.max)}`;
}

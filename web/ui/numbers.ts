import type { Text } from "../words/en/text.ts";

/** Returns whole seconds up to 99, then minutes and seconds. Never negative. */
export function seconds(ms: number): string {
  const s = Math.max(0, Math.floor(ms / 1000));
  return s < 100 ? `${s} s` : minutes(s);
}

/** Returns the time left, rounded up, so that 0 means the limit has passed. */
export function secondsLeft(ms: number): string {
  const s = Math.max(0, Math.ceil(ms / 1000));
  return s < 100 ? `${s} s` : minutes(s);
}

function minutes(s: number): string {
  if (s >= 3600) return `${Math.floor(s / 3600)} h ${Math.floor((s % 3600) / 60)} min`;
  return `${Math.floor(s / 60)}:${String(s % 60).padStart(2, "0")}`;
}

/** Returns an age in words for a sentence. */
export function ago(ms: number, { times }: Pick<Text, "times">): string {
  return ms < 1500 ? times.now : times.ago(seconds(ms));
}

/**
 * Returns the words with no-break spaces, so that a figure stays with the word before and the unit behind it, and a
 * date in one piece: "number 3", "5 min".
 */
export function together(words: string): string {
  return words
    .replaceAll(/ (?=\d)|(?<=\d) (?=(?:s|min|V|psi|kt|ft)\b)/g, "\u00a0")
    .replaceAll(/(?<=\d{4})-(\d{2})-(?=\d{2})/g, "-\u2060$1-\u2060");
}

const DECIMALS = /\.(\d+)/;

/** Returns a figure with as many decimals as its step. */
export function figure(value: number, step: number): string {
  const decimals = DECIMALS.exec(String(step))?.[1]?.length ?? 0;
  return value.toFixed(decimals);
}

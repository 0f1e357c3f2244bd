const WORDS = /[\p{L}\p{N}]+/gu;
const MARKS = /\p{M}/gu;

/**
 * Returns the words of a text as they are compared: in small letters, without accents, each one letters and digits
 * only. Every index holds these, so that all of them find the same.
 */
export function folded(text: string): string[] {
  return text.normalize("NFKD").replace(MARKS, "").toLowerCase().match(WORDS) ?? [];
}

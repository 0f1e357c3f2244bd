import { wordsOf } from "../../shared/words/phraseBook.ts";
import type { Words } from "../words/words.ts";

/** A problem as the server sends it (RFC 9457); from elsewhere anything may be missing. */
export interface Problem {
  type?: string;
  title?: string;
  detail?: string;
}

/**
 * A problem for the person, in their language: the server's detail where it is known, else its title by its type with
 * the detail as it was sent, in English.
 * @param status said where the problem says nothing
 */
export function problemWords({ type, title, detail }: Problem, status: number, words: Words): string {
  const { say, text, problem } = words;
  const told = detail ? problem(detail) : [];
  if (detail && !told.some((piece) => piece.asWritten)) return wordsOf(told);
  const titles: Readonly<Record<string, string>> = text.problems;
  const kind = type?.split(":").at(-1) ?? "";
  const own = Object.hasOwn(titles, kind) ? titles[kind] : title;
  if (detail && own && say.language !== "en") return `${own} (${detail})`;
  return detail ?? own ?? text.net.status(status);
}

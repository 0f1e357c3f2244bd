import type { Piece } from "../../shared/words/piece.ts";
import type { Words } from "../words/catalogue.ts";

/** A problem as the server sends it (RFC 9457). Every field is optional, because a proxy may have answered. */
export interface Problem {
  type?: string;
  title?: string;
  detail?: string;
}

/**
 * Returns a problem in the person's language: the server's detail when a translation is known; otherwise the title
 * for its type, followed by the detail in English as it was sent.
 * @param status the HTTP status, shown when the problem has no text
 * @param titles the titles by the problem's type; empty when they could not be fetched
 */
export function problemWords(
  { type, title, detail }: Problem,
  status: number,
  words: Words,
  titles: Readonly<Record<string, string>>,
): readonly Piece[] {
  const { say, text, problem } = words;
  const translated = detail ? problem(detail) : [];
  if (detail && !translated.some((piece) => piece.asWritten)) return translated;
  const kind = kindOf(type);
  const knownTitle = Object.hasOwn(titles, kind) ? titles[kind] : undefined;
  const asSent = (english: string): Piece => ({ words: english, asWritten: say.language !== "en" });
  const heading = knownTitle === undefined ? title && asSent(title) : inLanguage(knownTitle);
  if (detail && heading && say.language !== "en")
    return [heading, inLanguage(" ("), asSent(detail), inLanguage(")")];
  if (detail) return [asSent(detail)];
  return [heading || inLanguage(text.net.status(status))];
}

/** Returns the kind of a problem, the last part of its type; empty when it has none. */
export function kindOf(type: string | undefined): string {
  return type?.split(":").at(-1) ?? "";
}

const inLanguage = (words: string): Piece => ({ words, asWritten: false });

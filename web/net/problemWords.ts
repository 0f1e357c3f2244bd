import type { Piece } from "../../shared/words/phraseBook.ts";
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
export function problemWords(
  { type, title, detail }: Problem,
  status: number,
  words: Words,
): readonly Piece[] {
  const { say, text, problem } = words;
  const told = detail ? problem(detail) : [];
  if (detail && !told.some((piece) => piece.asWritten)) return told;
  const titles: Readonly<Record<string, string>> = text.problems;
  const kind = type?.split(":").at(-1) ?? "";
  const own = Object.hasOwn(titles, kind) ? titles[kind] : undefined;
  const sent = (english: string): Piece => ({ words: english, asWritten: say.language !== "en" });
  const heading = own === undefined ? title && sent(title) : said(own);
  if (detail && heading && say.language !== "en") return [heading, said(" ("), sent(detail), said(")")];
  if (detail) return [sent(detail)];
  return [heading || said(text.net.status(status))];
}

const said = (words: string): Piece => ({ words, asWritten: false });

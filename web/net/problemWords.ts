import type { Words } from "../words/words.ts";

/** A problem as the server sends it (RFC 9457); from elsewhere anything may be missing. */
export interface Problem {
  type?: string;
  title?: string;
  detail?: string;
}

/**
 * A problem for the person: its title in their language by its type, the server's detail as it is, in English.
 * @param status said where the problem says nothing
 */
export function problemWords({ type, title, detail }: Problem, status: number, { say, text }: Words): string {
  const known: Readonly<Record<string, string>> = text.problems;
  const kind = type?.split(":").at(-1) ?? "";
  const own = Object.hasOwn(known, kind) ? known[kind] : title;
  const all =
    say.language === "en" ? (detail ?? own) : detail && own ? `${own} (${detail})` : (own ?? detail);
  return all ?? text.net.status(status);
}

import { readSealedRecord } from "../../shared/evidence/read.ts";
import { sha256OfBytes } from "../sha256.ts";
import { splitExport } from "./split-export.ts";

/** The result of comparing the pictures beside an export with their digests. */
export interface PicturesCheck {
  /** False when a picture is not the one that the record names. */
  ok: boolean;
  says: string[];
}

/**
 * Compares pictures with the digests in an export that was checked before. A picture that is not at hand is told and is
 * no fault: its bytes may have been removed since. A file is named by its digest, as the server saves it.
 */
export function checkPictures(text: string, files: ReadonlyMap<string, Uint8Array>): PicturesCheck {
  const named = new Set(digestsIn(text));
  const bad: string[] = [];
  const strange: string[] = [];
  const whole = new Set<string>();
  for (const [file, bytes] of files) {
    const says = file.split(".")[0] ?? "";
    const is = sha256OfBytes(bytes);
    if (named.has(is)) whole.add(is);
    if (named.has(says) && is !== says)
      bad.push(`BAD ${file}: its bytes are not those that the record names`);
    else if (!named.has(is)) strange.push(`not named: ${file}`);
  }
  const missing = [...named].filter((digest) => !whole.has(digest) && !bad.some((b) => b.includes(digest)));
  return {
    ok: bad.length === 0,
    says: [
      `${named.size} pictures named, ${whole.size} at hand and whole`,
      ...missing.map((digest) => `not at hand: ${digest}`),
      ...bad,
      ...strange,
    ],
  };
}

/** Yields the digests of the pictures that an aircraft's own record names. */
function* digestsIn(text: string): Generator<string> {
  for (const line of splitExport(text).lines) {
    if (!line.includes('"pictured"')) continue;
    const { fact } = recordEventIn(line) ?? {};
    if (fact?.type === "pictured") yield fact.picture.sha256;
  }
}

/** Returns the event of a line; null for a line of another kind, such as a session's event that quotes the word. */
function recordEventIn(line: string) {
  try {
    return readSealedRecord(line).event;
  } catch {
    return null;
  }
}

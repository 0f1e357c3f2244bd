import { manifestSchema, verify } from "../../shared/evidence/verify.ts";
import { sha256 } from "../sha256.ts";

export interface FileCheck {
  ok: boolean;
  /** One or two lines for a person. */
  says: string;
}

/** Checks an exported record in its exact form (NDJSON): the first line is the manifest, each other one an event. */
export function checkFile(text: string): FileCheck {
  const lines = text.split("\n");
  // The last line ends with a line feed: what follows it is nothing.
  if (lines.at(-1) === "") lines.pop();
  const [first, ...events] = lines;
  const bad = (line: number, why: string): FileCheck => ({ ok: false, says: `BAD line ${line}: ${why}` });
  const manifest = manifestSchema.safeParse(parse(first ?? ""));
  if (!manifest.success) return bad(1, "not the manifest of a record exported as NDJSON");
  const result = verify(events, manifest.data, sha256);
  // Line 1 of the file is the manifest, so event line n is line n + 1.
  if (!result.ok) return bad(result.line + 1, result.why);
  const { session, aircraft, exportedAt } = manifest.data;
  return {
    ok: true,
    says:
      `OK ${result.events} events of session ${session}, ${aircraft}, stage ${result.state.stage}, exported ${exportedAt}\n` +
      `head ${result.head}\n` +
      "The chain shows that nothing was changed inside it. That it was not written anew as a whole is shown only by a head noted elsewhere.",
  };
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

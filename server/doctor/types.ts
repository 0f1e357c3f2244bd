import { unfitFigures } from "../../shared/types/unfit.ts";
import type { StoredType } from "../store/stored-type.ts";
import { claimed, sealedAsFound, sealFault } from "../types/seal.ts";
import { bad, type Finding, ok, watch } from "./finding.ts";

/** The stored types as the doctor reads them: every version and the guards that are missing, or why it cannot. */
export type ExaminedTypes =
  | { rows: StoredType[]; missing: string[] }
  | { unreadable: string; damaged: boolean };

interface About {
  /** The server's public key, hexadecimal; null when the doctor could not read the signing key. */
  publicHex: string | null;
  /** True while the demo is on. */
  demo: boolean;
}

const KEEP =
  "keep the database as it is, restore the last backup beside it, and find out who or what changed it";

/** Returns the findings about aircraft types: their guards, their seals, and demo data in a real house. */
export function typeFindings(examined: ExaminedTypes, { publicHex, demo }: About): Finding[] {
  if ("unreadable" in examined)
    return [
      bad(
        "aircraft types",
        `cannot be read: ${examined.unreadable}`,
        examined.damaged ? KEEP : "let this user read the table of aircraft types, and run the doctor again",
      ),
    ];
  const { rows, missing } = examined;
  const found = missing.map((name) =>
    bad("guards", `the trigger ${name} is missing or not as it was made`, KEEP),
  );
  const sealed = rows.filter((row) => row.seal !== null || row.status === "approved");
  if (publicHex === null) {
    if (sealed.length > 0)
      found.push(
        watch("seals", "not checked: the signing key cannot be read", "run it as the server's user"),
      );
    return found;
  }
  const faulty = sealed.flatMap((row) => {
    const { id, version } = claimed(row);
    const fault = sealFault(row, publicHex);
    return fault === null ? [] : [{ place: `${id} ${version}`, fault }];
  });
  const say = (fault: string) => faulty.flatMap((f) => (f.fault === fault ? [f.place] : [])).join(", ");
  const [changed, unsealed, otherKey] = [say("changed"), say("unsealed"), say("otherKey")];
  if (changed) found.push(bad("seals", `not what was approved: ${changed}`, KEEP));
  if (otherKey)
    found.push(bad("seals", `sealed with another key: ${otherKey}`, "restore the signing key that they had"));
  if (unsealed && sealed.every((row) => row.seal === null))
    found.push(
      watch(
        "seals",
        `approved before there were seals: ${unsealed}`,
        "nothing: the next start seals them as they are",
      ),
    );
  else if (unsealed)
    found.push(bad("seals", `approved without a seal: ${unsealed}`, "make a draft of each and approve that"));
  if (faulty.length === 0)
    found.push(ok("seals", `${sealed.length} approved versions, each as it was approved`));
  const asFound = sealed.filter(sealedAsFound).length;
  if (asFound > 0 && !demo)
    found.push(
      watch(
        "seals",
        `${asFound} sealed as found, not by an approval`,
        "check their figures once more against the manual",
      ),
    );
  return [...found, ...demoTypes(sealed, demo)];
}

function demoTypes(rows: readonly StoredType[], demo: boolean): Finding[] {
  if (demo) return [];
  const unfit = rows.flatMap((row) => {
    const figures = unfitIn(row);
    return figures > 0 ? [`${row.id} ${row.version} (${figures})`] : [];
  });
  return unfit.length === 0
    ? []
    : [
        watch(
          "demo data",
          `figures that are invented or about another type: ${unfit.join(", ")}; no start is planned on them`,
          "nothing: they are never offered; begin a type from your own manual",
        ),
      ];
}

function unfitIn({ body }: StoredType): number {
  try {
    return unfitFigures(JSON.parse(body)).length;
  } catch {
    // The seal's finding names a body that cannot be read.
    return 0;
  }
}

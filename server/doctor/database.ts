import type { Examined } from "../store/examine.ts";
import { bad, type Finding, ok, watch } from "./finding.ts";
import { recordFinding } from "./records.ts";

/** Returns findings for an examined database file. */
export function databaseFindings(file: string, found: Examined): Finding[] {
  const findings: Finding[] = [];
  if (found.notWritable !== null)
    findings.push(
      bad("database", `cannot be written: ${found.notWritable}`, `give this user ${file} and its folder`),
    );
  if (!found.there)
    return [
      ...findings,
      watch(
        "database",
        `${file} is not there`,
        "nothing, if the server never ran: it makes one; else check CHOCKSIDE_DATA",
      ),
    ];
  if (found.damage !== null)
    return [
      ...findings,
      bad("database", `${file}: ${found.damage}`, "stop the server, keep the file, restore the last backup"),
    ];
  findings.push(filesFinding(found.openToOthers));
  if (found.unreadable !== null)
    return [
      ...findings,
      bad(
        "database",
        `${file} cannot be read: ${found.unreadable}`,
        "let this user read it: check its owner, its mode and its folder's, and that no other program locks it",
      ),
    ];
  findings.push(ok("database", `${file} is sound (SQLite ${found.sqlite})`));
  findings.push(
    found.journal === "wal"
      ? ok("journal", "a write-ahead log")
      : watch("journal", `${found.journal}`, "nothing: the next start sets it, and says if it cannot"),
  );
  if (found.refused !== null)
    findings.push(bad("version", found.refused, "run the version of Chockside that made it, or a newer one"));
  else
    findings.push(
      found.pending.length === 0
        ? ok("version", "in this version's shape")
        : watch(
            "version",
            `the next start applies ${found.pending.join(", ")}`,
            "make a backup first: npm run backup",
          ),
    );
  if (found.chains !== null) findings.push(recordFinding(found.chains));
  findings.push(ok("server", found.inUse ? "one runs on this database" : "none runs on this database"));
  return findings;
}

/** @param open the database's files that others can read; they hold the hashes of PINs and people's names */
function filesFinding(open: readonly string[]): Finding {
  return open.length === 0
    ? ok("file modes", "only this user can read the database's files")
    : bad(
        "file modes",
        `others can read ${open.join(", ")}`,
        `run chmod 600 ${open.join(" ")}, and consider whether somebody copied it: then set new PINs`,
      );
}

import { statfsSync, statSync } from "node:fs";
import { dirname } from "node:path";
import { openSigner } from "../evidence/signer.ts";
import type { SecretFile } from "../secret-files.ts";
import { bad, type Finding, ok, watch } from "./finding.ts";

/** Free space in bytes below which to warn, and below which the next session may not fit. Our own estimate. */
const WATCH_BYTES = 2 * 1024 ** 3;
const BAD_BYTES = 200 * 1024 ** 2;

/** @param needed the oldest supported version, as in package.json: `>=20.19.0` */
export function nodeVersion(version: string, needed: string): Finding {
  const parts = (text: string) =>
    text
      .replace(/^[^0-9]*/, "")
      .split(".")
      .map(Number);
  const [have, least] = [parts(version), parts(needed)];
  const differs = least.findIndex((n, i) => n !== have[i]);
  const enough = differs < 0 || (have[differs] ?? 0) > (least[differs] ?? 0);
  return enough
    ? ok("Node", version)
    : bad("Node", `${version}, but ${needed} is needed`, "install a newer Node");
}

export function diskSpace(folder: string, free: number): Finding {
  const says = `${(free / 1024 ** 3).toFixed(1)} GiB free where ${folder} is`;
  if (free < BAD_BYTES) return bad("disk", says, "make room now: a full disk stops every recording");
  if (free < WATCH_BYTES) return watch("disk", says, "make room soon: see retention in server/OPERATING.md");
  return ok("disk", says);
}

/** Returns the bytes free for this user on the file's disk. */
export function freeAt(file: string): number {
  const { bavail, bsize } = statfsSync(dirname(file));
  return bavail * bsize;
}

/** Tolerance for this machine's clock behind the newest event. Milliseconds. */
const BEHIND_MS = 1_000;

/** @param newest server time of the newest recorded event; 0 for none */
export function clockAgainstRecord(now: number, newest: number): Finding {
  const at = new Date(now).toISOString();
  if (now < newest - BEHIND_MS)
    return bad(
      "clock",
      `it says ${at}, but the newest event was recorded at ${new Date(newest).toISOString()}`,
      "set the machine's clock, and let a time server keep it: sessions would run on the record's time until then",
    );
  return ok("clock", `${at}, not behind the record`);
}

/** @param synchronised true when a time server keeps the clock; null when the system does not say */
export function clockKept(synchronised: boolean | null): Finding {
  if (synchronised === false)
    return watch(
      "time server",
      "no time server keeps the clock",
      "configure one: setting the clock by hand voids clearances",
    );
  return ok("time server", synchronised ? "a time server keeps the clock" : "the system does not say");
}

/** Checks that only the server's user can read a secret's file. */
export function secretFile({ setting, file }: SecretFile): Finding {
  if (process.platform !== "win32" && (statSync(file).mode & 0o077) !== 0)
    return watch(
      setting,
      `${file} can be read by others`,
      "let the server's user alone read it (0400), and consider whether somebody copied it",
    );
  return ok(setting, file);
}

/** Checks the key that signs checkpoints. */
export function signingKey(file: string, ours: boolean): Finding {
  const stat = statSync(file, { throwIfNoEntry: false });
  if (!stat)
    return ours
      ? watch(
          "signing key",
          `${file} is not there`,
          "nothing, if the server never ran; else restore your copy of it",
        )
      : bad("signing key", `${file} is not there`, "check CHOCKSIDE_SIGNING_KEY");
  if (process.platform !== "win32" && (stat.mode & 0o077) !== 0) {
    const says = `${file} can be read by others`;
    const todo = `run chmod 600 ${file}, and consider whether somebody copied it`;
    return ours ? bad("signing key", says, todo) : watch("signing key", says, todo);
  }
  try {
    return ok("signing key", `${file}, public key ${openSigner({ file, ours: false }).publicHex}`);
  } catch (error) {
    return bad("signing key", (error as Error).message, "restore your copy of it");
  }
}

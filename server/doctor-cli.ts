// npm run doctor -- [--minutes 30]: checks the installation without changing it, and says what to do. The exit code
// is 1 when something must be fixed. Hash chains are checked for at most so many minutes, by default 1.
import { execFileSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { type Config, readConfig } from "./config.ts";
import { certificate } from "./doctor/certificate.ts";
import { checkpointFinding, type SignedBy } from "./doctor/checkpoints.ts";
import { databaseFindings } from "./doctor/database.ts";
import { bad, type Finding, ok, watch } from "./doctor/finding.ts";
import { linkFinding } from "./doctor/links.ts";
import {
  clockAgainstRecord,
  clockKept,
  diskSpace,
  freeAt,
  nodeVersion,
  secretFile,
  signingKey,
} from "./doctor/machine.ts";
import { packagesFinding } from "./doctor/packages.ts";
import { postgresFindings } from "./doctor/postgres.ts";
import { redisFinding } from "./doctor/redis.ts";
import { type ExaminedTypes, typeFindings } from "./doctor/types.ts";
import { openSigner } from "./evidence/signer.ts";
import { lockNow, readRecord } from "./packages/record.ts";
import { examine } from "./store/examine.ts";
import { examinePostgres } from "./store/postgres/examine.ts";

const USAGE = "usage: npm run doctor -- [--minutes <how long records are followed at most, 1 unless said>]";

const followMs = minutes() * 60_000;
const MARKS = { ok: "ok   ", watch: "WATCH", bad: "BAD  " };
const findings = await look();
for (const { at, is, says, todo } of findings)
  console.log(`${MARKS[is]} ${at}: ${says}${todo === undefined ? "" : `\n      -> ${todo}`}`);
const worst = findings.filter((f) => f.is === "bad").length;
console.log(worst === 0 ? "No problem found." : `${worst} to fix.`);
process.exitCode = worst === 0 ? 0 : 1;

async function look(): Promise<Finding[]> {
  const { version, engines } = JSON.parse(
    readFileSync(fileURLToPath(new URL("../package.json", import.meta.url)), "utf8"),
  );
  const found = [ok("Chockside", version), nodeVersion(process.version, engines.node)];
  let config: Config;
  try {
    config = readConfig(process.env);
  } catch (error) {
    return [...found, bad("settings", (error as Error).message, "see the table in server/OPERATING.md")];
  }
  found.push(ok("settings", "all known and in range"));
  found.push(packages(config.data));
  found.push(...config.secretFiles.map(secretFile));
  found.push(signingKey(config.signingKey.file, config.signingKey.ours));
  found.push(await certificate(config.tls, Date.now()));
  found.push(clockKept(timeServer()));
  if (config.postgres !== null) found.push(linkFinding("PostgreSQL", config.postgres));
  if (config.redis !== null) found.push(linkFinding("Redis", config.redis), await redisFinding(config.redis));
  return [
    ...found,
    ...(config.postgres === null ? onFile(config) : await onPostgres(config.postgres, config)),
  ];
}

function packages(data: string): Finding {
  try {
    return packagesFinding(readRecord(data), lockNow(), Date.now());
  } catch (error) {
    return watch("packages", `their record cannot be read: ${(error as Error).message}`, "run npm run audit");
  }
}

/** Returns the public key of the signing key, or null when it cannot be read; the finding of the key says why. */
function publicKey({ signingKey: { file } }: Config): string | null {
  try {
    return existsSync(file) ? openSigner({ file, ours: false }).publicHex : null;
  } catch {
    return null;
  }
}

function onTypes(config: Config, types: ExaminedTypes | null): Finding[] {
  return types === null ? [] : typeFindings(types, { publicHex: publicKey(config), demo: config.demo });
}

function onKey(config: Config, signedBy: SignedBy[] | null): Finding[] {
  return signedBy === null ? [] : [checkpointFinding(publicKey(config), signedBy)];
}

function onFile(config: Config): Finding[] {
  const { data } = config;
  const until = performance.now() + followMs;
  const examined = examine(data, () => performance.now() >= until);
  const found = databaseFindings(data, examined);
  try {
    found.push(diskSpace(data, freeAt(data)));
  } catch {
    // The folder does not exist yet: the database's finding reports it.
  }
  found.push(...onKey(config, examined.signedBy), ...onTypes(config, examined.types));
  return [...found, clockAgainstRecord(Date.now(), examined.newestAt)];
}

async function onPostgres(url: string, config: Config): Promise<Finding[]> {
  const examined = await examinePostgres({ url }, followMs);
  const found = [
    ...postgresFindings(examined),
    ...onKey(config, examined.signedBy),
    ...onTypes(config, examined.types),
  ];
  return [...found, clockAgainstRecord(Date.now(), examined.newestAt)];
}

function minutes(): number {
  try {
    const { values } = parseArgs({ options: { minutes: { type: "string", default: "1" } } });
    const asked = Number(values.minutes);
    if (asked > 0 && asked <= 1_440) return asked;
  } catch {
    // Print the usage, as for an invalid number.
  }
  console.error(USAGE);
  return process.exit(2);
}

/** Returns systemd's answer whether the clock is synchronised; null without systemd. */
function timeServer(): boolean | null {
  try {
    const said = execFileSync("timedatectl", ["show", "--property=NTPSynchronized", "--value"], {
      encoding: "utf8",
      stdio: ["ignore", "pipe", "ignore"],
      timeout: 2_000,
    });
    return said.trim() === "yes";
  } catch {
    return null;
  }
}

import { createRequire } from "node:module";
import { StartRefused } from "./start-refused.ts";

/** Hosts on this machine, including Unix sockets. */
const HERE = /^(localhost|127(\.\d{1,3}){3}|\[?::1\]?|\/.*|)$/;

/** The connection to PostgreSQL, Redis or an MQTT broker, from its address in the settings, without the credentials. */
export interface Link {
  host: string;
  /**
   * `open`: it leaves the machine without TLS that checks the certificate, so others can read or change the traffic.
   */
  is: "here" | "checked" | "open";
}

/** Reads an address of the settings as its driver does, so that no spelling of it is judged otherwise than it is used. */
export function linkOf(address: string): Link {
  if (/^postgres(ql)?:/.test(address)) return postgresLink(address);
  const { protocol, hostname: host } = new URL(URL.canParse(address) ? address : "unknown://unknown");
  if ((protocol === "rediss:" || protocol === "mqtts:") && checksCertificates())
    return { host, is: "checked" };
  return { host, is: HERE.test(host) ? "here" : "open" };
}

/** Asks the driver itself: it also reads PGHOST, PGSSLMODE and the like, and the last of a parameter given twice. */
function postgresLink(connectionString: string): Link {
  try {
    // Loaded only where it is used: a server on a file starts without it.
    const { Client } = createRequire(import.meta.url)("pg") as typeof import("pg");
    const { host, ssl } = new Client({ connectionString }) as unknown as { host: string; ssl: unknown };
    // `require` is checked by this driver and not by its next version: take the one word that says so.
    const mode = new URL(connectionString).searchParams.getAll("sslmode").at(-1);
    if (mode === "verify-full" && isChecked(ssl)) return { host, is: "checked" };
    return { host, is: HERE.test(host) ? "here" : "open" };
  } catch {
    return { host: "an address that cannot be read", is: "open" };
  }
}

/** `ssl` as the driver hands it to Node's TLS. */
function isChecked(ssl: unknown): boolean {
  if (ssl === true) return checksCertificates();
  if (typeof ssl !== "object" || ssl === null) return false;
  const { rejectUnauthorized, checkServerIdentity } = ssl as Record<string, unknown>;
  return rejectUnauthorized !== false && checkServerIdentity === undefined && checksCertificates();
}

const checksCertificates = () => process.env.NODE_TLS_REJECT_UNAUTHORIZED !== "0";

/** @throws StartRefused when a link is open */
export function refuseOpenLinks(set: {
  DATABASE_URL?: string | undefined;
  REDIS_URL?: string | undefined;
}): void {
  for (const [setting, how] of [
    ["DATABASE_URL", "?sslmode=verify-full"],
    ["REDIS_URL", "rediss://"],
  ] as const) {
    const address = set[setting];
    const link = address === undefined ? null : linkOf(address);
    if (link?.is === "open")
      throw new StartRefused(
        `settings are wrong: ${setting} reaches ${link.host} without TLS that checks its certificate: take ${how}, or set CHOCKSIDE_LINKS=plain where nobody else is on that network`,
      );
  }
}

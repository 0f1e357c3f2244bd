import { StartRefused } from "./start-refused.ts";

/** Hosts on this machine, including Unix sockets. */
const HERE = /^(localhost|127\.[\d.]+|\[::1\]|\/.*|)$/;

/** The connection to PostgreSQL or Redis, from its address in the settings, without the credentials. */
export interface Link {
  host: string;
  /**
   * `open`: it leaves the machine without TLS that checks the certificate, so others can read or change the traffic.
   */
  is: "here" | "checked" | "open";
}

export function linkOf(address: string): Link {
  const { protocol, hostname, searchParams } = new URL(URL.canParse(address) ? address : "unknown://unknown");
  const host = searchParams.get("host") ?? hostname;
  if (protocol === "rediss:" || searchParams.get("sslmode") === "verify-full") return { host, is: "checked" };
  return { host, is: HERE.test(host) ? "here" : "open" };
}

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

import { StartRefused } from "./start-refused.ts";

/** This machine itself, or a socket in its files: nobody is in between. */
const HERE = /^(localhost|127\.[\d.]+|\[::1\]|\/.*|)$/;

/** How PostgreSQL or Redis is reached, as its address in the settings says; never with what signs in there. */
export interface Link {
  host: string;
  /** What is said can be read or changed on the way: it leaves the machine, and not by TLS that checks the certificate. */
  is: "here" | "checked" | "open";
}

export function linkOf(address: string): Link {
  const { protocol, hostname, searchParams } = new URL(URL.canParse(address) ? address : "unknown://unknown");
  const host = searchParams.get("host") ?? hostname;
  if (protocol === "rediss:" || searchParams.get("sslmode") === "verify-full") return { host, is: "checked" };
  return { host, is: HERE.test(host) ? "here" : "open" };
}

/** @throws StartRefused when one of them is reached without TLS that checks its certificate */
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

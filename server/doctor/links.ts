import { type Finding, ok, watch } from "./finding.ts";

/** This machine itself, or a socket in its files: nobody is in between. */
const HERE = /^(localhost|127\.[\d.]+|\[::1\]|\/.*|)$/;

/**
 * Whether what is said to PostgreSQL or Redis can be read or changed on the way.
 * @param address as in the settings; nothing of it but the host is repeated
 */
export function linkFinding(service: "PostgreSQL" | "Redis", address: string): Finding {
  const { protocol, hostname, searchParams } = new URL(URL.canParse(address) ? address : "unknown://unknown");
  const host = searchParams.get("host") ?? hostname;
  const at = `link to ${service}`;
  if (protocol === "rediss:" || searchParams.get("sslmode") === "verify-full")
    return ok(at, `TLS, with the certificate of ${host} checked`);
  if (HERE.test(host)) return ok(at, "within this machine");
  const how = service === "Redis" ? "rediss://" : "sslmode=verify-full";
  return watch(
    at,
    `${host} is reached without TLS that checks its certificate`,
    `take ${how}, unless nobody else is on that network`,
  );
}

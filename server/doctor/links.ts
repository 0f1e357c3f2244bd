import { linkOf } from "../links.ts";
import { type Finding, ok, watch } from "./finding.ts";

/**
 * Checks that nobody can read or change traffic to PostgreSQL or Redis.
 * @param address from the settings; only its host is printed
 */
export function linkFinding(service: "PostgreSQL" | "Redis", address: string): Finding {
  const at = `link to ${service}`;
  const { host, is } = linkOf(address);
  if (is === "checked") return ok(at, `TLS, with the certificate of ${host} checked`);
  if (is === "here") return ok(at, "within this machine");
  const how = service === "Redis" ? "rediss://" : "sslmode=verify-full";
  return watch(
    at,
    `${host} is reached without TLS that checks its certificate`,
    `take ${how}, unless nobody else is on that network`,
  );
}

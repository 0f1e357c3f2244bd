import { linkOf } from "../links.ts";
import { type Finding, ok, watch } from "./finding.ts";

/**
 * Whether what is said to PostgreSQL or Redis can be read or changed on the way.
 * @param address as in the settings; nothing of it but the host is repeated
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

import { isIP } from "node:net";
import { hostname } from "node:os";

/**
 * Returns true when the Host header may be a name of this server. A foreign page can point a name of its own at this
 * machine and then pass as same-origin (DNS rebinding). So a public name must be a configured one; addresses, single
 * words and this machine's own name cannot belong to an attacker. Anybody on the link can claim another `.local` name.
 * @param host the `Host` header
 */
export function hostAllowed(host: string | undefined, origins: readonly string[]): boolean {
  if (host === undefined) return false;
  let url: URL;
  try {
    url = new URL(`http://${host}`);
  } catch {
    return false;
  }
  // Refuse anything beyond a host and a port.
  if (url.pathname !== "/" || url.username !== "" || url.search !== "" || url.hash !== "") return false;
  const name = url.hostname.replace(/^\[|\]$/g, "");
  if (isIP(name) || !name.includes(".") || ownNames().includes(name)) return true;
  return origins.some((origin) => new URL(origin).hostname === name);
}

/** The machine's name, and the one it has by multicast DNS (RFC 6762). */
function ownNames(): string[] {
  const name = hostname().toLowerCase();
  return [name, `${name.split(".")[0]}.local`];
}

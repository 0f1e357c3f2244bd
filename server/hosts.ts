import { isIP } from "node:net";
import { hostname } from "node:os";

/**
 * Whether a request may have been meant for this server by the name it was sent to. A page of somebody else's can
 * point a name of its own at this machine and then passes for ours (DNS rebinding): so a name from the open net must be
 * one we were told of. Addresses, names of one word and of `.local` belong to nobody out there.
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
  // Nothing but a host and a port.
  if (url.pathname !== "/" || url.username !== "" || url.search !== "" || url.hash !== "") return false;
  const name = url.hostname.replace(/^\[|\]$/g, "");
  if (isIP(name) || !name.includes(".") || name.endsWith(".local") || name === hostname().toLowerCase())
    return true;
  return origins.some((origin) => new URL(origin).hostname === name);
}

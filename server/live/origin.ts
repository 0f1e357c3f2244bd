import type { IncomingMessage } from "node:http";

/**
 * Returns true when the page that opens the socket is of this server or of an allowed origin. CORS does not apply to
 * WebSockets, so the server must check. Only browsers send `Origin`: other programs may connect, but still need a
 * token.
 */
export function originAllowed(request: IncomingMessage, allowed: readonly string[]): boolean {
  const { origin, host } = request.headers;
  if (origin === undefined) return true;
  if (allowed.includes(origin)) return true;
  try {
    return new URL(origin).host === host;
  } catch {
    return false;
  }
}

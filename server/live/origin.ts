import type { IncomingMessage } from "node:http";

/**
 * Whether a socket may be opened from the page it comes from. Browsers always say which page that is, and CORS does
 * not guard sockets; a program that is no browser says nothing and still needs a token.
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

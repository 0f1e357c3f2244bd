/** One file of the built panels, with the digest a fetched copy must have (W3C Subresource Integrity: `sha256-…`). */
export interface ShellFile {
  url: string;
  integrity: string;
}

/** The build a service worker was made for. Any changed byte of any file makes another version. */
export interface Shell {
  version: string;
  files: readonly ShellFile[];
}

export const CACHE_PREFIX = "chockside-shell-";

export const cacheName = (shell: Shell): string => CACHE_PREFIX + shell.version;

/** What a request is answered with: a kept file, the kept page, or only what the network says. */
export type Source = { is: "file"; url: string } | { is: "page" } | { is: "network" };

/** Never kept and never made up: what the server alone knows. */
const SERVER_ONLY = /^\/(api|live|health|docs)(\/|$)/;

/**
 * @param navigates the browser asks for a page to show, whose address the panels read themselves
 */
export function sourceOf(
  shell: Shell,
  request: { method: string; path: string; navigates: boolean },
): Source {
  const { method, path, navigates } = request;
  if (method !== "GET" || SERVER_ONLY.test(path)) return { is: "network" };
  if (shell.files.some((f) => f.url === path)) return { is: "file", url: path };
  return navigates ? { is: "page" } : { is: "network" };
}

/**
 * Kept caches to drop once a version is in use: all but its own and the one before, out of which a window that has not
 * been loaded anew may still need a part.
 * @param names every cache of this origin, oldest first
 */
export function outdated(names: readonly string[], current: string): string[] {
  const others = names.filter((n) => n.startsWith(CACHE_PREFIX) && n !== current);
  return others.slice(0, -1);
}

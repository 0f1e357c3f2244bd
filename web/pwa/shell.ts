/** One file of the built panels. A fetched copy must match `integrity` (W3C Subresource Integrity: `sha256-…`). */
export interface ShellFile {
  url: string;
  integrity: string;
}

/** The build a service worker was made for. Any changed byte of any file gives another version. */
export interface Shell {
  version: string;
  files: readonly ShellFile[];
}

export const CACHE_PREFIX = "chockside-shell-";

export const cacheName = (shell: Shell): string => CACHE_PREFIX + shell.version;

/** The source of an answer: a cached file, the cached page, or the network only. */
export type Source = { is: "file"; url: string } | { is: "page" } | { is: "network" };

/** Paths that only the server answers: never cached. */
const SERVER_ONLY = /^\/(api|live|health|docs)(\/|$)/;

/**
 * Returns the source that answers a request.
 * @param navigates true when the browser requests a page; the panels interpret its address themselves
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
 * Returns the caches to delete once a version is in use: all except its own and the previous one, from which a window
 * that was not reloaded may still need a file.
 * @param names every cache of this origin, oldest first
 */
export function outdated(names: readonly string[], current: string): string[] {
  const others = names.filter((n) => n.startsWith(CACHE_PREFIX) && n !== current);
  return others.slice(0, -1);
}

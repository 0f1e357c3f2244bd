import { useSyncExternalStore } from "react";

/** Where in the app this window is; the address is the truth. */
export type Route =
  | { is: "ramp"; join: string | null }
  | { is: "plan" }
  | { is: "session"; id: string }
  | { is: "record"; id: string };

const listeners = new Set<() => void>();

export function routeOf(path: string, search: string): Route {
  const [, first, id, more] = path.split("/");
  if (first === "plan") return { is: "plan" };
  if (first === "session" && id) return more === "record" ? { is: "record", id } : { is: "session", id };
  return { is: "ramp", join: new URLSearchParams(search).get("join") };
}

export function go(path: string): void {
  history.pushState(null, "", path);
  for (const listener of listeners) listener();
  scrollTo(0, 0);
}

function subscribe(listener: () => void): () => void {
  listeners.add(listener);
  addEventListener("popstate", listener);
  return () => {
    listeners.delete(listener);
    removeEventListener("popstate", listener);
  };
}

export function useRoute(): Route {
  const address = useSyncExternalStore(subscribe, () => location.pathname + location.search);
  const [path = "", search = ""] = address.split("?");
  return routeOf(path, search);
}

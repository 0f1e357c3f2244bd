import { useSyncExternalStore } from "react";
import { type Play, playOf } from "./played.ts";

/** The page this window shows. The address is the only source of it. */
export type Route =
  | { is: "ramp"; join: string | null; play: Play | null }
  | { is: "plan"; aircraft: string | null }
  | { is: "aircraft"; page: AircraftRoute }
  | { is: "engine"; serial: string }
  | { is: "rehearse"; aircraft: string | null }
  | { is: "board" }
  | { is: "devices" }
  | { is: "people" }
  | { is: "dues" }
  | { is: "house"; page: string | undefined; asked: string }
  | { is: "equipment"; id: string | null }
  | { is: "enrol" }
  | { is: "first" }
  | { is: "session"; id: string }
  | { is: "record"; id: string }
  | { is: "types"; page: TypesRoute }
  | { is: "study"; page: string | null; more: string | null };

/** A page of the aircraft in the house's register. */
export type AircraftRoute =
  | { is: "list" }
  | { is: "new" }
  | { is: "one"; id: string }
  | { is: "history"; id: string };

/** A page of the aircraft types. */
export type TypesRoute =
  | { is: "list" }
  | { is: "version"; id: string; version: number }
  | { is: "edit"; id: string; version: number }
  | { is: "begun"; id: string }
  | { is: "difference"; id: string; before: number; after: number };

const listeners = new Set<() => void>();

export function routeOf(path: string, search: string): Route {
  const [, first, id, more, ...rest] = path.split("/");
  if (first === "plan") return { is: "plan", aircraft: new URLSearchParams(search).get("aircraft") };
  if (first === "rehearse") return { is: "rehearse", aircraft: new URLSearchParams(search).get("aircraft") };
  if (first === "aircraft") return { is: "aircraft", page: aircraftRouteOf(id, more) };
  if (first === "engines" && id) return { is: "engine", serial: decodeURIComponent(id) };
  if (first === "board") return { is: "board" };
  if (first === "devices") return { is: "devices" };
  if (first === "house") return { is: "house", page: id, asked: search };
  if (first === "equipment") return { is: "equipment", id: id || null };
  if (first === "dues") return { is: "dues" };
  if (first === "people") return { is: "people" };
  if (first === "enrol") return { is: "enrol" };
  if (first === "first") return { is: "first" };
  if (first === "session" && id) return more === "record" ? { is: "record", id } : { is: "session", id };
  if (first === "study") return { is: "study", page: id || null, more: more || null };
  if (first === "types") return { is: "types", page: typesRouteOf(id, more, rest) };
  const asked = new URLSearchParams(search);
  return { is: "ramp", join: asked.get("join"), play: playOf(asked.get("play")) };
}

function aircraftRouteOf(id: string | undefined, more: string | undefined): AircraftRoute {
  if (!id) return { is: "list" };
  if (more === "history") return { is: "history", id: decodeURIComponent(id) };
  return id === "new" ? { is: "new" } : { is: "one", id: decodeURIComponent(id) };
}

function typesRouteOf(id: string | undefined, more: string | undefined, [what, other]: string[]): TypesRoute {
  if (id && more === "begun") return { is: "begun", id: decodeURIComponent(id) };
  const version = Number(more);
  if (!id || !Number.isInteger(version)) return { is: "list" };
  const before = Number(other);
  if (what === "since" && Number.isInteger(before)) return { is: "difference", id, before, after: version };
  return { is: what === "edit" ? "edit" : "version", id, version };
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

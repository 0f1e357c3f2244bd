import type { ConnectionView } from "./connectionView.ts";

/** The part of a connection that a view needs. */
export interface Watched {
  view(): ConnectionView;
  subscribe(listener: () => void): () => void;
}

/**
 * Least time between two redraws caused by other people, milliseconds. A touch must not wait behind a series of
 * redraws.
 */
export const CALM_MS = 200;

/**
 * Returns the connection's view with fewer changes. This person's actions, a change of the connection and every new
 * stop show at once; changes by others are collected and shown at most five times a second.
 */
export function calmed({ view, subscribe }: Watched, now: () => number): Watched {
  let shown = view();
  let shownAt = 0;
  let timer: ReturnType<typeof setTimeout> | null = null;
  let end: (() => void) | null = null;
  const listeners = new Set<() => void>();
  const show = () => {
    if (timer !== null) clearTimeout(timer);
    timer = null;
    if (shown === view()) return;
    shown = view();
    shownAt = now();
    for (const listener of listeners) listener();
  };
  const changed = () => {
    const wait = shownAt + CALM_MS - now();
    if (wait <= 0 || wait > CALM_MS || presses(shown, view())) show();
    else timer ??= setTimeout(show, wait);
  };
  return {
    // Without subscribers `shown` is not updated, so read the connection directly.
    view: () => (listeners.size === 0 ? view() : shown),
    subscribe: (listener) => {
      if (listeners.size === 0) {
        shown = view();
        end = subscribe(changed);
      }
      listeners.add(listener);
      return () => {
        listeners.delete(listener);
        if (listeners.size > 0) return;
        if (timer !== null) clearTimeout(timer);
        timer = null;
        end?.();
      };
    },
  };
}

/** True for a change that must show at once: anything except new events that raise no stop. */
function presses(before: ConnectionView, after: ConnectionView): boolean {
  const { state: was, events: _, lastHeard: heardBefore, ...rest } = before;
  const { state: is, events: __, lastHeard: heardAfter, ...now } = after;
  if ((heardBefore === null) !== (heardAfter === null)) return true;
  if ((Object.keys(rest) as (keyof typeof rest)[]).some((k) => rest[k] !== now[k])) return true;
  if (!was || !is) return was !== is;
  return (
    was.holds !== is.holds ||
    was.cuts !== is.cuts ||
    was.fires !== is.fires ||
    was.alerts !== is.alerts ||
    was.epoch !== is.epoch
  );
}

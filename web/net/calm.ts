import type { LinkView } from "./linkView.ts";

/** What a link gives to who watches it. */
export interface Watched {
  view(): LinkView;
  subscribe(listener: () => void): () => void;
}

/** Least time between two pictures of what others sent, milliseconds: a touch must never wait for a row of them. */
export const CALM_MS = 200;

/**
 * The link's view as a panel draws it. What this person did, a change of the link and every new stop show at once;
 * what others reported besides is drawn together, five times a second at most.
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
    // Nobody watching: nothing told it of changes.
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

/** Anything but more of the record that raises no stop. */
function presses(before: LinkView, after: LinkView): boolean {
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

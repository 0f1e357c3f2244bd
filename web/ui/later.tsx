import { type ComponentType, type LazyExoticComponent, lazy } from "react";
import { useWords } from "../words/words.ts";

const begun: (() => Promise<unknown>)[] = [];

/**
 * A part of the panels that the first picture does not need. It is fetched with `fetchRest` soon after, so that it is
 * there when the network is not; should even that fail, the part says so and the rest of the panel goes on.
 */
export function later<P extends object>(
  load: () => Promise<ComponentType<P>>,
): LazyExoticComponent<ComponentType<P>> {
  let fetched: Promise<ComponentType<P>> | null = null;
  const get = () => {
    fetched ??= load().catch((error: unknown) => {
      fetched = null;
      throw error;
    });
    return fetched;
  };
  begun.push(get);
  return lazy(() => get().then(asDefault, () => asDefault(NotHere as ComponentType<P>)));
}

const asDefault = <C,>(component: C) => ({ default: component });

function NotHere() {
  return <p className="notice-words">{useWords().text.app.partMissing}</p>;
}

/** Fetches every part not here yet. */
export function fetchRest(): void {
  for (const get of begun) get().catch(() => undefined);
}

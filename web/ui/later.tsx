import { type ComponentType, type LazyExoticComponent, lazy, useState } from "react";
import { useWords } from "../words/words.ts";

const begun: (() => Promise<unknown>)[] = [];

/**
 * A part of the panels that the first picture does not need. It is fetched with `fetchRest` soon after, so that it is
 * there when the network is not; should even that fail, the part says so and the rest of the panel goes on.
 */
export function later<P extends object>(
  load: () => Promise<ComponentType<P>>,
): LazyExoticComponent<ComponentType<P>> {
  const get = fetchedOnce(load);
  return lazy(() => get().then(asDefault, () => asDefault(NotHere as ComponentType<P>)));
}

/**
 * A part that nobody may have to wait for: a plain form of it is here from the start, and stands in until the whole one
 * has been fetched with the rest. What was opened plain stays so, lest it change under a finger.
 */
export function plainUntil<P extends object>(
  Plain: ComponentType<P>,
  load: () => Promise<ComponentType<P>>,
): ComponentType<P> {
  let whole: ComponentType<P> | null = null;
  fetchedOnce(() =>
    load().then((part) => {
      whole = part;
      return part;
    }),
  );
  return function WholeOrPlain(props: P) {
    const [Part] = useState(() => whole ?? Plain);
    return <Part {...props} />;
  };
}

function fetchedOnce<T>(load: () => Promise<T>): () => Promise<T> {
  let fetched: Promise<T> | null = null;
  const get = () => {
    fetched ??= load().catch((error: unknown) => {
      fetched = null;
      throw error;
    });
    return fetched;
  };
  begun.push(get);
  return get;
}

const asDefault = <C,>(component: C) => ({ default: component });

function NotHere() {
  return <p className="notice-words">{useWords().text.app.partMissing}</p>;
}

/** Fetches every part not here yet. */
export function fetchRest(): void {
  for (const get of begun) get().catch(() => undefined);
}

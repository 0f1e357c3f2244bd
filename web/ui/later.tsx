import { type ComponentType, lazy, memo } from "react";
import { useWords } from "../words/words.ts";

const begun: (() => Promise<unknown>)[] = [];

/**
 * Returns a lazy component for a part that the first paint does not need. `fetchRest` loads it soon after, so that it
 * is available when the network is not. If loading fails, the part says so and the rest of the panel goes on. It is
 * drawn again only when its props change.
 */
export function later<P extends object>(load: () => Promise<ComponentType<P>>): ComponentType<P> {
  const get = fetchedOnce(load);
  return memo(lazy(() => get().then(asDefault, () => asDefault(NotHere as ComponentType<P>)))) as never;
}

/** Returns a function that gives a part of the program once it has loaded, and null before. */
export function laterPart<T>(load: () => Promise<T>): () => T | null {
  let part: T | null = null;
  fetchedOnce(() =>
    load().then((loaded) => {
      part = loaded;
      return loaded;
    }),
  );
  return () => part;
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

/** Shown for a part that could not be loaded. From an entry the person can go back. */
function NotHere({ onBack }: { onBack?: () => void }) {
  const { app, entry } = useWords().text;
  return (
    <>
      <p className="notice-words">{app.partMissing}</p>
      {onBack && (
        <button type="button" className="answer" data-tone="plain" onClick={onBack}>
          {entry.back}
        </button>
      )}
    </>
  );
}

/** Time from one part to the next, milliseconds. */
const APART_MS = 20;

/** Begins to load every part that is not loaded yet, one after another, so that a touch never waits for all of them. */
export async function fetchRest(): Promise<void> {
  for (const get of begun) {
    await new Promise((done) => setTimeout(done, APART_MS));
    get().catch(() => undefined);
  }
}

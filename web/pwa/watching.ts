import { useEffect } from "react";

const WATCHING = "chockside.watching";

/** Tells every window of this browser that a session is watched here while the component is mounted. */
export function useWatching(): void {
  useEffect(() => {
    if (!("locks" in navigator)) return;
    let over = () => {};
    const until = new Promise<void>((done) => {
      over = done;
    });
    // A shared lock, because several windows may watch at once. The browser releases it when a window dies.
    void navigator.locks.request(WATCHING, { mode: "shared" }, () => until);
    return over;
  }, []);
}

/** True while any window of this browser watches a session. */
export async function watchedSomewhere(): Promise<boolean> {
  if (!("locks" in navigator)) return false;
  const { held } = await navigator.locks.query();
  return held?.some((lock) => lock.name === WATCHING) ?? false;
}

import { useEffect } from "react";

const WATCHING = "chockside.watching";

/** Says to every window of this browser that a session is watched here, as long as the component stands. */
export function useWatching(): void {
  useEffect(() => {
    if (!("locks" in navigator)) return;
    let over = () => {};
    const until = new Promise<void>((done) => {
      over = done;
    });
    // Shared: many windows may watch at once. A window that dies lets go by itself.
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

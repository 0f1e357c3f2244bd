import { useEffect, useState } from "react";

/** State of keeping the screen lit for the panel. */
export type ScreenIs = "asking" | "kept" | "mayGoDark" | "unsupported";

/**
 * Keeps the screen lit while the component is mounted. The browser may refuse, and releases the lock whenever the
 * page is hidden.
 */
export function useWakeLock(): ScreenIs {
  const [is, setIs] = useState<ScreenIs>("wakeLock" in navigator ? "asking" : "unsupported");
  useEffect(() => {
    if (!("wakeLock" in navigator)) return;
    let lock: WakeLockSentinel | null = null;
    let over = false;
    let asking = false;
    const ask = async () => {
      if (over || asking || (lock && !lock.released) || document.visibilityState !== "visible") return;
      asking = true;
      try {
        const got = await navigator.wakeLock.request("screen");
        if (over) return void got.release();
        lock = got;
        setIs("kept");
        got.addEventListener("release", () => {
          if (!over) setIs("mayGoDark");
        });
      } catch {
        if (!over) setIs("mayGoDark");
      } finally {
        asking = false;
      }
    };
    void ask();
    // The browser refuses at a low battery; a touch may succeed.
    const again = () => void ask();
    document.addEventListener("visibilitychange", again);
    document.addEventListener("pointerdown", again);
    return () => {
      over = true;
      document.removeEventListener("visibilitychange", again);
      document.removeEventListener("pointerdown", again);
      void lock?.release();
    };
  }, []);
  return is;
}

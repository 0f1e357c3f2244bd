import { useEffect, useRef } from "react";
import type { Panel } from "./model.ts";
import { touchDue } from "./touchDue.ts";

/** A touch on a key sends its own message, which already shows presence. Wait this long for it to be sent. */
const OWN_MESSAGE_MS = 400;

/**
 * Reports that the person is there when they touch the panel or press a key, wherever it is. Only events that the
 * browser made from a person's input count, and only while the connection is fresh.
 */
export function useTouch(panel: Panel): void {
  const latest = useRef(panel);
  latest.current = panel;
  useEffect(() => {
    let reportedAt: number | null = null;
    let waiting: ReturnType<typeof setTimeout> | null = null;
    const report = (newest: string | undefined) => {
      waiting = null;
      const { state, post, now, fresh, sent, act } = latest.current;
      if (post === null || !fresh || sent[0]?.id !== newest) return;
      if (!touchDue(state, post, now, reportedAt)) return;
      reportedAt = now;
      act({ type: "present" });
    };
    const touched = (event: Event) => {
      if (!event.isTrusted || waiting !== null) return;
      const newest = latest.current.sent[0]?.id;
      waiting = setTimeout(() => report(newest), OWN_MESSAGE_MS);
    };
    document.addEventListener("pointerdown", touched, true);
    document.addEventListener("keydown", touched, true);
    return () => {
      document.removeEventListener("pointerdown", touched, true);
      document.removeEventListener("keydown", touched, true);
      if (waiting !== null) clearTimeout(waiting);
    };
  }, []);
}

import { useEffect, useRef } from "react";

/** Everything that is open and closes at Escape, the newest last. */
const open: { close(): void }[] = [];

function onKey(event: KeyboardEvent): void {
  if (event.key === "Escape") open.at(-1)?.close();
}

/** Calls `onClose` at Escape, wherever the focus is, unless something opened later takes it. */
export function useEscape(onClose: () => void): void {
  const latest = useRef(onClose);
  latest.current = onClose;
  useEffect(() => {
    const own = { close: () => latest.current() };
    if (open.length === 0) document.addEventListener("keydown", onKey);
    open.push(own);
    return () => {
      open.splice(open.indexOf(own), 1);
      if (open.length === 0) document.removeEventListener("keydown", onKey);
    };
  }, []);
}

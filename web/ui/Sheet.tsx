import { type ReactNode, useEffect, useRef, useState } from "react";
import { useWords } from "../words/words.ts";
import { useEscape } from "./useEscape.ts";

interface Props {
  title: string;
  children: ReactNode;
  /** The content is drawn with the frame: for the few keys of a stop. */
  atOnce?: boolean;
  onClose(): void;
}

/**
 * A sheet over the panel: the browser's own dialog, deliberately not modal. It takes and returns the focus and does not
 * trap it, and no touch outside closes it, so that hold, cut and fire stay usable. The first frame after the touch
 * shows its frame and title, the next its content, so that a slow tablet answers the touch at once.
 */
export function Sheet({ title, children, atOnce = false, onClose }: Props) {
  const words = useWords().text.options;
  const box = useRef<HTMLDialogElement>(null);
  useEscape(onClose);
  const [framed, setFramed] = useState(atOnce);
  useEffect(() => {
    // After the next frame's picture, and not deferred: signals that arrive all the time would put it off.
    const frame = requestAnimationFrame(() => setTimeout(setFramed, 0, true));
    return () => cancelAnimationFrame(frame);
  }, []);
  useEffect(() => {
    const before = document.activeElement as HTMLElement | null;
    box.current?.focus();
    return () => before?.focus?.();
  }, []);
  return (
    <div className="sheet-ground">
      <dialog ref={box} open className="sheet" aria-label={title} tabIndex={-1}>
        <header className="sheet-head">
          <h2>{title}</h2>
          <button type="button" className="small-key" onClick={onClose}>
            {words.close}
          </button>
        </header>
        <div className="sheet-body">{framed && children}</div>
      </dialog>
    </div>
  );
}

import { type ReactNode, useEffect, useRef } from "react";
import { useWords } from "../words/words.ts";

/** Props of a sheet, whichever way it is drawn. */
export interface SheetProps {
  title: string;
  children: ReactNode;
  onClose(): void;
}

/**
 * A sheet that appears in the first frame after the touch: the browser's own dialog, not modal. Used for the stops
 * and for an engine touched on the plan, and for other sheets until their script has loaded.
 */
export function QuickSheet({ title, children, onClose }: SheetProps) {
  const words = useWords().text.options;
  const box = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const before = document.activeElement as HTMLElement | null;
    box.current?.focus();
    return () => before?.focus?.();
  }, []);
  return (
    <div className="sheet-ground">
      <dialog
        ref={box}
        open
        className="sheet"
        aria-label={title}
        tabIndex={-1}
        onKeyDown={(e) => {
          if (e.key !== "Escape") return;
          // Close only this sheet, not one below it.
          e.stopPropagation();
          onClose();
        }}
      >
        <header className="sheet-head">
          <h2>{title}</h2>
          <button type="button" className="small-key" onClick={onClose}>
            {words.close}
          </button>
        </header>
        <div className="sheet-body">{children}</div>
      </dialog>
    </div>
  );
}

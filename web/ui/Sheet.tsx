import type { ReactNode } from "react";
import { useWords } from "../words/words.ts";
import { plainUntil } from "./later.tsx";

export interface SheetProps {
  title: string;
  children: ReactNode;
  onClose(): void;
}

/** A sheet laid over the panel; the stops stay in reach below it, and so does what a stop asks before all script is here. */
export const Sheet = plainUntil(PlainSheet, () => import("./DialogSheet.tsx").then((m) => m.DialogSheet));

/** The browser's own dialog, not modal. It takes the focus; giving it back is left to the whole one. */
function PlainSheet({ title, children, onClose }: SheetProps) {
  const words = useWords().text.options;
  return (
    <div className="sheet-ground">
      <dialog
        open
        className="sheet"
        aria-label={title}
        tabIndex={-1}
        ref={(box) => box?.focus()}
        onKeyDown={(e) => e.key === "Escape" && onClose()}
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

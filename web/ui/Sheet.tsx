import { type ReactNode, useEffect, useRef } from "react";
import { useWords } from "../words/words.ts";

interface Props {
  title: string;
  children: ReactNode;
  onClose(): void;
}

/** A sheet laid over the panel; the stops stay in reach below it. */
export function Sheet({ title, children, onClose }: Props) {
  const words = useWords().text.options;
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const before = document.activeElement as HTMLElement | null;
    box.current?.focus();
    return () => before?.focus?.();
  }, []);
  return (
    <div className="sheet-ground">
      <div
        ref={box}
        className="sheet"
        role="dialog"
        aria-modal="false"
        aria-label={title}
        tabIndex={-1}
        onKeyDown={(e) => e.key === "Escape" && onClose()}
      >
        <header className="sheet-head">
          <h2>{title}</h2>
          <button type="button" className="small-key" onClick={onClose}>
            {words.close}
          </button>
        </header>
        <div className="sheet-body">{children}</div>
      </div>
    </div>
  );
}

import { Dialog } from "@base-ui/react/dialog";
import { useRef } from "react";
import { useWords } from "../words/words.ts";
import type { SheetProps } from "./QuickSheet.tsx";

/**
 * A sheet as a dialog, deliberately not modal: it takes and returns focus but does not trap it, and no touch outside
 * closes it, so that hold, cut and fire stay usable while it is open.
 */
export function DialogSheet({ title, children, onClose }: SheetProps) {
  const words = useWords().text.options;
  const box = useRef<HTMLDivElement>(null);
  return (
    <Dialog.Root open modal={false} disablePointerDismissal onOpenChange={(open) => open || onClose()}>
      <Dialog.Portal className="sheet-ground">
        <Dialog.Popup ref={box} className="sheet" initialFocus={box}>
          <header className="sheet-head">
            <Dialog.Title>{title}</Dialog.Title>
            <Dialog.Close className="small-key">{words.close}</Dialog.Close>
          </header>
          <div className="sheet-body">{children}</div>
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}

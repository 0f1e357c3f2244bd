import { Collapsible } from "@base-ui/react/collapsible";
import type { ReactNode } from "react";

interface Props {
  open: boolean;
  /** Words on the key. */
  words: string;
  /** Like an answer key, or across the whole width. */
  look: "answer" | "worked-more";
  children: ReactNode;
  onOpen(open: boolean): void;
}

/** A key that opens and closes a part below it. */
export function Opening({ open, words, look, children, onOpen }: Props) {
  return (
    // Without an element of its own, so that key and part take part in the surrounding layout.
    <Collapsible.Root open={open} onOpenChange={onOpen} render={(root) => <>{root.children}</>}>
      <Collapsible.Trigger className={look} data-tone={look === "answer" ? "plain" : undefined}>
        {words}
      </Collapsible.Trigger>
      <Collapsible.Panel>{children}</Collapsible.Panel>
    </Collapsible.Root>
  );
}

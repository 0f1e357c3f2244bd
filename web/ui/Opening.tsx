import { Collapsible } from "@base-ui/react/collapsible";
import type { ReactNode } from "react";

interface Props {
  open: boolean;
  /** What stands on the key. */
  words: string;
  /** A key like those that answer, or one across the whole width. */
  look: "answer" | "worked-more";
  children: ReactNode;
  onOpen(open: boolean): void;
}

/** A key that opens a part below it, and closes it again. */
export function Opening({ open, words, look, children, onOpen }: Props) {
  return (
    // No box of its own: key and part stand among what is around them.
    <Collapsible.Root open={open} onOpenChange={onOpen} render={(root) => <>{root.children}</>}>
      <Collapsible.Trigger className={look} data-tone={look === "answer" ? "plain" : undefined}>
        {words}
      </Collapsible.Trigger>
      <Collapsible.Panel>{children}</Collapsible.Panel>
    </Collapsible.Root>
  );
}

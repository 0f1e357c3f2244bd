import type { ReactNode } from "react";
import { Trouble } from "../ui/Trouble.tsx";
import { useWords } from "../words/words.ts";
import { go } from "./route.ts";

interface Props {
  title: string;
  lead: string;
  /** The error to show, or null. */
  trouble: Error | null;
  /** Keys before the one that leads back. */
  keys?: ReactNode;
  children: ReactNode;
}

/** A page opened from the ramp, with a key that leads back to it. */
export function SidePage({ title, lead, trouble, keys, children }: Props) {
  const { ramp } = useWords().text;
  return (
    <main className="page">
      <header className="page-head page-head-row">
        <div>
          <h1>{title}</h1>
          <p>{lead}</p>
        </div>
        <nav className="head-keys">
          {keys}
          <button type="button" className="answer" data-tone="plain" onClick={() => go("/")}>
            {ramp.back}
          </button>
        </nav>
      </header>
      <Trouble of={trouble} />
      {children}
    </main>
  );
}

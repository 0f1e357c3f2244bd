import type { ReactNode } from "react";
import { TranslatedText } from "../../ui/TranslatedText.tsx";
import { Trouble } from "../../ui/Trouble.tsx";
import { useTypeFaults, useTypeWords } from "../../words/types.ts";

interface Props {
  title: string;
  words: string;
  children: ReactNode;
}

/** Title, one line about it, and the page's keys. */
export function PageHead({ title, words, children }: Props) {
  const own = useTypeWords();
  return (
    <header className="page-head page-head-row">
      <div>
        <h1>{title}</h1>
        <p>{words}</p>
      </div>
      <nav className="types-keys" aria-label={own.page}>
        {children}
      </nav>
    </header>
  );
}

export function Key({ onPress, children, off }: { onPress(): void; children: ReactNode; off?: boolean }) {
  return (
    <button type="button" className="small-key" disabled={off === true} onClick={onPress}>
      {children}
    </button>
  );
}

/** The error, with each fault listed. */
export function TypeTrouble({ error }: { error: Error | null }) {
  const words = useTypeWords();
  const translate = useTypeFaults();
  if (!error) return null;
  const faults = "faults" in error ? (error.faults as readonly { path: string; message: string }[]) : [];
  if (faults.length === 0) return <Trouble of={error} />;
  return (
    <div className="trouble" role="alert">
      <ul>
        {faults.map((f) => (
          <li key={f.path + f.message}>
            {f.path === "" ? words.file : f.path}: <TranslatedText pieces={translate(f.message)} />
          </li>
        ))}
      </ul>
    </div>
  );
}

import { useState } from "react";
import type { Confirmed } from "../../shared/asks/ask.ts";
import { usePersonWords } from "../words/person.ts";
import { useWords } from "../words/words.ts";
import { PinEntry } from "./PinEntry.tsx";
import { Trouble } from "./Trouble.tsx";

interface Props {
  word: string;
  blocked: boolean;
  confirm(pin: string): Promise<Confirmed>;
  onConfirmed(confirmed: Confirmed): void;
  onBack(): void;
}

/** The last step of setting a condition aside: the server checks the person's PIN. */
export function OverridePin({ word, blocked, confirm, onConfirmed, onBack }: Props) {
  const words = usePersonWords();
  const { entry } = useWords().text;
  const [checking, setChecking] = useState(false);
  const [trouble, setTrouble] = useState<Error | null>(null);
  const enter = async (pin: string) => {
    setChecking(true);
    setTrouble(null);
    try {
      onConfirmed(await confirm(pin));
    } catch (error) {
      setTrouble(error instanceof Error ? error : new Error(words.failed));
    }
    setChecking(false);
  };
  return (
    <section className="entry" aria-label={words.pinAgain}>
      <p>{words.asideWhy}</p>
      {blocked && (
        <p className="trouble" role="alert">
          {words.asideOffline}
        </p>
      )}
      <Trouble of={trouble} />
      <PinEntry
        word={checking ? words.checking : word}
        disabled={blocked || checking}
        onEnter={(pin) => void enter(pin)}
      />
      <button type="button" className="answer" data-tone="plain" onClick={onBack}>
        {entry.back}
      </button>
    </section>
  );
}

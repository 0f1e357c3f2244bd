import { useState } from "react";
import { useLaterWords } from "../words/later.ts";

/**
 * Shown when this person is open in another window of this browser. Only one window may send, so this one shows no
 * panel.
 */
export function ElsewherePage({ name, onTake }: { name: string; onTake: (() => void) | undefined }) {
  const words = useLaterWords().elsewhere;
  const [asked, setAsked] = useState(false);
  return (
    <main className="page waiting elsewhere">
      <h1>{words.title(name)}</h1>
      <p>{words.what}</p>
      <button
        type="button"
        className="answer"
        data-tone="yes"
        disabled={asked}
        onClick={() => {
          setAsked(true);
          onTake?.();
        }}
      >
        {asked ? words.taking : words.take}
      </button>
    </main>
  );
}

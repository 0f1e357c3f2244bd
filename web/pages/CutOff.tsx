import { useState } from "react";
import { ApiError } from "../net/api.ts";
import type { Sure } from "../net/sure.ts";
import { PinEntry } from "../ui/PinEntry.tsx";
import { Trouble } from "../ui/Trouble.tsx";
import { usePersonWords } from "../words/person.ts";

/** An act that may cut off somebody on duty. Without `sure` the server refuses it in that case. */
type Act = (sure?: Sure) => Promise<unknown>;

interface Asked {
  act: Act;
  done(): void;
  why: Error;
}

/**
 * Returns a function that does such an act, and the section to show: it says whom the act cuts off, and asks for the
 * PIN, when the server refused it because they hold a post.
 */
export function useCutOff(onTrouble: (error: Error) => void) {
  const [asked, setAsked] = useState<Asked | null>(null);
  const attempt = async (act: Act, done: () => void, sure?: Sure) => {
    try {
      await act(sure);
      setAsked(null);
      done();
    } catch (error) {
      if (error instanceof ApiError && (error.problem === "onDuty" || sure))
        setAsked({ act, done, why: error });
      else if (error instanceof Error) onTrouble(error);
    }
  };
  const section = asked && (
    <CutOff
      why={asked.why}
      onPin={(pin) => void attempt(asked.act, asked.done, { confirm: true, pin })}
      onBack={() => setAsked(null)}
    />
  );
  return { cutOff: (act: Act, done: () => void) => void attempt(act, done), section };
}

function CutOff({ why, onPin, onBack }: { why: Error; onPin(pin: string): void; onBack(): void }) {
  const words = usePersonWords();
  return (
    <section className="entry" aria-label={words.onDuty}>
      <h2>{words.onDuty}</h2>
      <Trouble of={why} />
      <p>{words.onDutyWhat}</p>
      <PinEntry word={words.cutOff} disabled={false} onEnter={onPin} />
      <button type="button" className="answer" data-tone="plain" onClick={onBack}>
        {words.leaveOnDuty}
      </button>
    </section>
  );
}

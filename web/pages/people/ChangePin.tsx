import { useState } from "react";
import { people } from "../../net/people.ts";
import { Keypad } from "../../ui/Keypad.tsx";
import { usePersonWords } from "../../words/person.ts";

const STEPS = ["old", "next", "again"] as const;
type Step = (typeof STEPS)[number];

/** Fewest digits a PIN ever had. */
const SHORTEST_OLD = 4;
/** Fewest digits of a new PIN, until the server has sent this installation's setting. */
const SHORTEST_NEW = 6;
const NOTHING = { old: "", next: "", again: "" };

/** Changes the person's own PIN: the old one, the new one, and the new one again, each on large keys. */
export function ChangePin({ onTrouble }: { onTrouble(error: Error | null): void }) {
  const words = usePersonWords();
  const [step, setStep] = useState<Step | null>(null);
  const [entered, setEntered] = useState(NOTHING);
  const [done, setDone] = useState(false);
  const [least, setLeast] = useState(SHORTEST_NEW);
  const begin = () => {
    // If this request fails, the server still refuses a PIN that is too short.
    people.me().then(
      ({ pinLength }) => setLeast(pinLength),
      () => {},
    );
    setEntered(NOTHING);
    setDone(false);
    onTrouble(null);
    setStep("old");
  };
  const stop = () => {
    setEntered(NOTHING);
    setStep(null);
  };
  const next = () => {
    if (step === "old") return setStep("next");
    if (step === "next") return setStep("again");
    const { old, next: chosen, again } = entered;
    stop();
    if (chosen !== again) return onTrouble(new Error(words.notAlike));
    people.changePin(old, chosen).then(() => setDone(true), onTrouble);
  };
  if (step === null)
    return (
      <section className="own" aria-label={words.pin}>
        <h2>{words.pin}</h2>
        {done && <p role="status">{words.changed}</p>}
        <button type="button" className="answer" data-tone="plain" onClick={begin}>
          {words.change}
        </button>
      </section>
    );
  return (
    <section className="own" aria-label={words.pin}>
      <h2>{words.pin}</h2>
      <p>{words.rule(least)}</p>
      <div className="pin-entry">
        <Keypad
          key={step}
          label={words.steps[step]}
          value={entered[step]}
          onChange={(value) => setEntered({ ...entered, [step]: value })}
        />
        <button
          type="button"
          className="answer"
          data-tone="yes"
          disabled={entered[step].length < (step === "old" ? SHORTEST_OLD : least)}
          onClick={next}
        >
          {step === "again" ? words.change : words.goOn}
        </button>
        <button type="button" className="answer" data-tone="plain" onClick={stop}>
          {words.leave}
        </button>
      </div>
    </section>
  );
}

import { useState } from "react";
import type { Anybody } from "../../net/people.ts";
import { FormKeys } from "../../ui/FormKeys.tsx";
import { useCurrencyWords } from "../../words/currency.ts";
import { usePersonWords } from "../../words/person.ts";

interface Props {
  person: Anybody;
  /** Fewest characters of a PIN. */
  least: number;
  onSave(next: string, pin: string): void;
  onLeave(): void;
}

/** Replaces somebody's forgotten PIN, with one's own. */
export function NewPinForm({ person, least, onSave, onLeave }: Props) {
  const words = useCurrencyWords();
  const own = usePersonWords();
  const [next, setNext] = useState("");
  const [pin, setPin] = useState("");
  return (
    <form
      className="register-form person-form"
      aria-label={words.newPinOf(person.name)}
      onSubmit={(e) => {
        e.preventDefault();
        onSave(next, pin);
      }}
    >
      <h3>{words.newPinOf(person.name)}</h3>
      <p>{words.newPinWhat}</p>
      <div className="register-fields">
        <label className="field">
          <span>{words.next(least)}</span>
          <input
            name="next"
            value={next}
            maxLength={64}
            inputMode="numeric"
            autoComplete="off"
            onChange={(e) => setNext(e.target.value)}
          />
        </label>
        <label className="field">
          <span>{own.pin}</span>
          <input
            name="own"
            type="password"
            value={pin}
            maxLength={64}
            inputMode="numeric"
            autoComplete="off"
            onChange={(e) => setPin(e.target.value)}
          />
        </label>
      </div>
      <FormKeys
        send={words.replace}
        leave={words.leave}
        ready={next.length >= least && pin !== ""}
        onLeave={onLeave}
      />
    </form>
  );
}

import { useState } from "react";
import { usePersonWords } from "../words/person.ts";
import { Keypad } from "./Keypad.tsx";

interface Props {
  /** Word on the key that enters the PIN. */
  word: string;
  disabled: boolean;
  onEnter(pin: string): void;
}

const SHORTEST = 4;

/** Entry of the person's PIN on large keys, before an act that only they may do. It is cleared on entry. */
export function PinEntry({ word, disabled, onEnter }: Props) {
  const words = usePersonWords();
  const [pin, setPin] = useState("");
  const enter = () => {
    setPin("");
    onEnter(pin);
  };
  return (
    <div className="pin-entry">
      <Keypad label={words.pinAgain} value={pin} onChange={setPin} />
      <button
        type="button"
        className="answer"
        data-tone="yes"
        disabled={disabled || pin.length < SHORTEST}
        onClick={enter}
      >
        {word}
      </button>
    </div>
  );
}

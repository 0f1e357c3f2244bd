import { useState } from "react";
import { usePersonWords } from "../words/person.ts";
import { Keypad } from "./Keypad.tsx";

interface Props {
  /** What the key says that enters it. */
  word: string;
  disabled: boolean;
  onEnter(pin: string): void;
}

const SHORTEST = 4;

/** One's PIN entered again, on large keys, before an act that is nobody else's. It is gone from here once entered. */
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

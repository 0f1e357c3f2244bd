import { useLaterWords } from "../words/later.ts";

interface Props {
  label: string;
  value: string;
  onChange(value: string): void;
}

const LONGEST = 64;
const DIGITS = ["1", "2", "3", "4", "5", "6", "7", "8", "9"];

/** Entry of a PIN by large keys or by keyboard. The digits are never shown. */
export function Keypad({ label, value, onChange }: Props) {
  const { keypad } = useLaterWords();
  const add = (digit: string) => value.length < LONGEST && onChange(value + digit);
  const key = (digit: string) => (
    <button key={digit} type="button" className="pad-key" onClick={() => add(digit)}>
      {digit}
    </button>
  );
  return (
    <div className="keypad">
      <label className="field">
        <span>{label}</span>
        <input
          name="pin"
          type="password"
          inputMode="none"
          autoComplete="off"
          value={value}
          onChange={(e) => onChange(e.target.value.slice(0, LONGEST))}
        />
      </label>
      <div className="pad-keys">
        {DIGITS.map(key)}
        <button type="button" className="pad-key pad-word" onClick={() => onChange("")}>
          {keypad.clear}
        </button>
        {key("0")}
        <button type="button" className="pad-key pad-word" onClick={() => onChange(value.slice(0, -1))}>
          {keypad.back}
        </button>
      </div>
    </div>
  );
}

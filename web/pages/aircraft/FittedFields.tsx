import { useRegisterWords } from "../../words/register.ts";
import { type FittedText, hoursIn } from "./entry.ts";

interface Props {
  fitted: FittedText;
  onFitted(next: FittedText): void;
}

/** Entry of what is fitted at one engine's place. */
export function FittedFields({ fitted, onFitted }: Props) {
  const words = useRegisterWords();
  const { n, engine, propeller, starter } = fitted;
  return (
    <fieldset className="fitted-entry">
      <legend>{words.engine(n)}</legend>
      <Text
        label={words.engineSerial}
        value={engine.serial}
        most={40}
        onText={(serial) => onFitted({ ...fitted, engine: { ...engine, serial } })}
      />
      <Hours
        label={words.engineHours}
        value={engine.hours}
        onText={(hours) => onFitted({ ...fitted, engine: { ...engine, hours } })}
      />
      <Text
        label={words.propellerSerial}
        value={propeller.serial}
        most={40}
        onText={(serial) => onFitted({ ...fitted, propeller: { ...propeller, serial } })}
      />
      <Hours
        label={words.propellerHours}
        value={propeller.hours}
        onText={(hours) => onFitted({ ...fitted, propeller: { ...propeller, hours } })}
      />
      <Text
        label={words.starter}
        value={starter}
        most={60}
        onText={(next) => onFitted({ ...fitted, starter: next })}
      />
    </fieldset>
  );
}

interface FieldProps {
  label: string;
  value: string;
  onText(next: string): void;
}

function Text({ label, value, most, onText }: FieldProps & { most: number }) {
  return (
    <label className="field">
      <span>{label}</span>
      <input value={value} maxLength={most} autoComplete="off" onChange={(e) => onText(e.target.value)} />
    </label>
  );
}

/** A field of hours. What is no figure is said below it. */
export function Hours({ label, value, onText, note }: FieldProps & { note?: string }) {
  const words = useRegisterWords();
  const wrong = hoursIn(value) === undefined;
  return (
    <label className="field">
      <span>{label}</span>
      <input
        value={value}
        maxLength={9}
        inputMode="decimal"
        autoComplete="off"
        aria-invalid={wrong || undefined}
        onChange={(e) => onText(e.target.value)}
      />
      {wrong ? (
        <span className="field-fault">{words.noFigure}</span>
      ) : (
        note && <span className="field-note">{note}</span>
      )}
    </label>
  );
}

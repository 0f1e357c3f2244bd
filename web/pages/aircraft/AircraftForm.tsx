import type { ReactNode } from "react";
import { useRegisterWords } from "../../words/register.ts";
import type { AircraftText } from "./entry.ts";
import { FittedFields } from "./FittedFields.tsx";

interface Props {
  text: AircraftText;
  onText(next: AircraftText): void;
  /** True for an aircraft that is not in the register yet: its registration is entered. */
  fresh: boolean;
  /** The choice of the type, of a new aircraft. */
  children?: ReactNode;
}

/** The fields of an aircraft, those of each engine's place after the others. */
export function AircraftForm({ text, onText, fresh, children }: Props) {
  const words = useRegisterWords();
  return (
    <>
      <div className="register-fields">
        {fresh && (
          <label className="field">
            <span>{words.registration}</span>
            <input
              name="registration"
              value={text.id}
              maxLength={16}
              autoComplete="off"
              autoCapitalize="characters"
              spellCheck={false}
              onChange={(e) => onText({ ...text, id: e.target.value.toUpperCase() })}
            />
            <span className="field-note">{words.registrationRule}</span>
          </label>
        )}
        <label className="field">
          <span>{words.name}</span>
          <input
            name="name"
            value={text.name}
            maxLength={60}
            autoComplete="off"
            onChange={(e) => onText({ ...text, name: e.target.value })}
          />
        </label>
        {children}
        <label className="field">
          <span>{words.stand}</span>
          <input
            name="stand"
            value={text.stand}
            maxLength={60}
            autoComplete="off"
            onChange={(e) => onText({ ...text, stand: e.target.value })}
          />
        </label>
        <label className="field">
          <span>{words.notes}</span>
          <input
            name="notes"
            value={text.notes}
            maxLength={500}
            autoComplete="off"
            onChange={(e) => onText({ ...text, notes: e.target.value })}
          />
        </label>
      </div>
      {text.fitted.map((fitted, i) => (
        <FittedFields
          key={fitted.n}
          fitted={fitted}
          onFitted={(next) => onText({ ...text, fitted: text.fitted.with(i, next) })}
        />
      ))}
    </>
  );
}

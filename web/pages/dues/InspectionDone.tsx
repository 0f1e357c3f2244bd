import { useState } from "react";
import type { Inspection } from "../../../shared/dues/inspection.ts";
import { FormKeys } from "../../ui/FormKeys.tsx";
import { useDuesWords } from "../../words/dues.ts";
import { figureOf } from "./entry.ts";

interface Props {
  row: Inspection;
  onSave(last: NonNullable<Inspection["last"]>, words: string): void;
  onLeave(): void;
}

/** Enters that an inspection was done: the day, the hours then, and what was done. */
export function InspectionDone({ row, onSave, onLeave }: Props) {
  const words = useDuesWords();
  const [day, setDay] = useState("");
  const [typed, setTyped] = useState("");
  const [said, setSaid] = useState("");
  const byHours = row.every.by === "hours";
  const hours = byHours ? figureOf(typed) : null;
  const ready = day !== "" && said.trim() !== "" && (!byHours || hours !== null);
  return (
    <form
      className="register-form"
      aria-label={words.doneTitle(row.name)}
      onSubmit={(e) => {
        e.preventDefault();
        onSave({ day, hours }, said.trim());
      }}
    >
      <h3>{words.doneTitle(row.name)}</h3>
      <div className="register-fields">
        <label className="field">
          <span>{words.lastDay}</span>
          <input name="day" type="date" value={day} onChange={(e) => setDay(e.target.value)} />
        </label>
        {byHours && (
          <label className="field">
            <span>{words.lastHours}</span>
            <input
              name="hours"
              inputMode="decimal"
              maxLength={12}
              autoComplete="off"
              value={typed}
              onChange={(e) => setTyped(e.target.value)}
            />
          </label>
        )}
        <label className="field">
          <span>{words.words}</span>
          <input
            name="words"
            maxLength={200}
            autoComplete="off"
            value={said}
            onChange={(e) => setSaid(e.target.value)}
          />
        </label>
      </div>
      <FormKeys send={words.enter} leave={words.leave} ready={ready} onLeave={onLeave} />
    </form>
  );
}

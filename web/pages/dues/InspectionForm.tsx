import { useEffect, useState } from "react";
import type { Inspection } from "../../../shared/dues/inspection.ts";
import { aircraft } from "../../net/aircraft.ts";
import { Choice } from "../../ui/Choice.tsx";
import { FormKeys } from "../../ui/FormKeys.tsx";
import { useDuesWords } from "../../words/dues.ts";
import { entryOf, type InspectionText, isByHours, NOTHING_TYPED, textOfInspection } from "./entry.ts";

interface Props {
  /** Null for a new one. */
  begin: Inspection | null;
  onSave(entry: Inspection): void;
  onLeave(): void;
}

type Typed = "engine" | "name" | "source" | "every" | "ahead" | "day" | "hours";
const MOST: Readonly<Partial<Record<Typed, number>>> = { name: 60, source: 120 };

/** Entry of one inspection: what, of which aircraft, required by what, how often, and when it was last done. */
export function InspectionForm({ begin, onSave, onLeave }: Props) {
  const words = useDuesWords();
  const [text, setText] = useState<InspectionText>(begin ? textOfInspection(begin) : NOTHING_TYPED);
  const [fresh] = useState(() => ({
    id: begin?.id ?? crypto.randomUUID(),
    retired: begin?.retired ?? false,
  }));
  const [all, setAll] = useState<string[]>(begin ? [begin.aircraft] : []);
  useEffect(() => {
    aircraft.list().then(
      (rows) => setAll(rows.filter((r) => !r.retired).map((r) => r.id)),
      () => undefined,
    );
  }, []);
  const entry = entryOf(text, fresh);
  const everyIs = { days: words.everyDays, starts: words.everyStarts, engine: words.everyHours };
  const field = (is: Typed, label: string) => (
    <label className="field">
      <span>{label}</span>
      <input
        name={is}
        value={text[is]}
        type={is === "day" ? "date" : "text"}
        inputMode={is === "name" || is === "source" ? "text" : "decimal"}
        maxLength={MOST[is] ?? 12}
        autoComplete="off"
        onChange={(e) => setText({ ...text, [is]: e.target.value })}
      />
    </label>
  );
  return (
    <form
      className="register-form"
      aria-label={words.inspections}
      onSubmit={(e) => {
        e.preventDefault();
        if (entry) onSave(entry);
      }}
    >
      <div className="house-rule">
        <h3>{words.by}</h3>
        <Choice<InspectionText["by"]>
          label={words.by}
          chosen={text.by}
          options={[
            { is: "days", words: words.days },
            { is: "starts", words: words.starts },
            { is: "engine", words: words.part.engine },
            { is: "propeller", words: words.part.propeller },
          ]}
          className="option-keys"
          classNameOfKeys="answer"
          onChoose={(by) => setText({ ...text, by })}
        />
      </div>
      <div className="register-fields">
        <label className="field">
          <span>{words.aircraft}</span>
          <select
            name="aircraft"
            value={text.aircraft}
            onChange={(e) => setText({ ...text, aircraft: e.target.value })}
          >
            <option value="" />
            {all.map((id) => (
              <option key={id}>{id}</option>
            ))}
          </select>
        </label>
        {field("engine", words.engine)}
        {field("name", words.name)}
        {field("source", words.source)}
        {field("every", everyIs[text.by === "propeller" ? "engine" : text.by])}
        {field("ahead", words.ahead)}
        {field("day", words.lastDay)}
        {isByHours(text.by) && field("hours", words.lastHours)}
      </div>
      <FormKeys send={words.save} leave={words.leave} ready={entry !== null} onLeave={onLeave} />
    </form>
  );
}

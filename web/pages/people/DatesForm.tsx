import { useState } from "react";
import type { CurrencyRow, Dates } from "../../net/currencies.ts";
import type { Anybody } from "../../net/people.ts";
import { FormKeys } from "../../ui/FormKeys.tsx";
import { useCurrencyWords } from "../../words/currency.ts";

interface Props {
  person: Anybody;
  kinds: readonly CurrencyRow[];
  dates: Dates;
  onSave(dates: Dates): void;
  onLeave(): void;
}

/** Entry of the last day of each currency of one person. */
export function DatesForm({ person, kinds, dates, onSave, onLeave }: Props) {
  const words = useCurrencyWords();
  const [days, setDays] = useState(dates);
  return (
    <form
      className="register-form person-form"
      aria-label={words.datesOf(person.name)}
      onSubmit={(e) => {
        e.preventDefault();
        onSave(Object.fromEntries(Object.entries(days).filter(([, day]) => day !== "")));
      }}
    >
      <h3>{words.datesOf(person.name)}</h3>
      <div className="register-fields">
        {kinds
          .filter((k) => !k.retired)
          .map(({ id, name }) => (
            <label key={id} className="field">
              <span>{name}</span>
              <input
                name={`until-${id}`}
                type="date"
                value={days[id] ?? ""}
                onChange={(e) => setDays({ ...days, [id]: e.target.value })}
              />
            </label>
          ))}
      </div>
      <FormKeys send={words.save} leave={words.leave} ready onLeave={onLeave} />
    </form>
  );
}

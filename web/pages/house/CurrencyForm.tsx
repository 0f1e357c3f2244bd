import { useState } from "react";
import type { Currency } from "../../../shared/house/currency.ts";
import type { LapseRule } from "../../../shared/house/lapseRule.ts";
import { POSTS } from "../../../shared/protocol/posts.ts";
import { Choice } from "../../ui/Choice.tsx";
import { FormKeys } from "../../ui/FormKeys.tsx";
import { useCurrencyWords } from "../../words/currency.ts";
import { useWords } from "../../words/words.ts";

interface Props {
  begin: Currency;
  onSave(entry: Currency): void;
  onLeave(): void;
}

type Need = LapseRule | "not";
const NEEDS: readonly Need[] = ["bars", "warns", "not"];

const countOf = (days: string): number | null => (days.trim() === "" ? null : Number(days));
const isGood = (days: number | null): boolean =>
  days === null || (Number.isInteger(days) && days >= 1 && days <= 3650);

/** Entry of one kind of currency: its name, how it is kept, and what a lapse does at each post. */
export function CurrencyForm({ begin, onSave, onLeave }: Props) {
  const words = useCurrencyWords();
  const { say } = useWords();
  const [entry, setEntry] = useState(begin);
  const [days, setDays] = useState(String(begin.recencyDays ?? ""));
  const [rehearsed, setRehearsed] = useState(String(begin.rehearsalDays ?? ""));
  const count = countOf(days);
  // Recency is sent without what was entered before it was chosen.
  const rehearsal = count === null ? countOf(rehearsed) : null;
  const good = isGood(count) && isGood(rehearsal);
  return (
    <form
      className="register-form"
      aria-label={words.title}
      onSubmit={(e) => {
        e.preventDefault();
        const { rehearsalDays: _before, ...kept } = entry;
        const more = rehearsal === null ? {} : { rehearsalDays: rehearsal };
        onSave({ ...kept, ...more, name: entry.name.trim(), recencyDays: count });
      }}
    >
      <div className="register-fields">
        <label className="field">
          <span>{words.name}</span>
          <input
            name="currency"
            value={entry.name}
            maxLength={60}
            autoComplete="off"
            onChange={(e) => setEntry({ ...entry, name: e.target.value })}
          />
        </label>
        <label className="field">
          <span>{words.recency}</span>
          <input
            name="recency"
            value={days}
            maxLength={4}
            inputMode="numeric"
            autoComplete="off"
            onChange={(e) => setDays(e.target.value)}
          />
        </label>
        <label className="field">
          <span>{words.rehearsal}</span>
          <input
            name="rehearsal"
            value={count === null ? rehearsed : ""}
            maxLength={4}
            inputMode="numeric"
            autoComplete="off"
            disabled={count !== null}
            onChange={(e) => setRehearsed(e.target.value)}
          />
          {count !== null && <span className="field-note">{words.rehearsalNot}</span>}
        </label>
      </div>
      {POSTS.map((post) => (
        <div key={post} className="house-rule">
          <h3>{say.post(post)}</h3>
          <Choice<Need>
            label={say.post(post)}
            chosen={entry.needs[post] ?? "not"}
            options={NEEDS.map((is) => ({ is, words: words.needs[is] }))}
            className="option-keys"
            classNameOfKeys="answer"
            onChoose={(is) =>
              setEntry({ ...entry, needs: { ...entry.needs, [post]: is === "not" ? null : is } })
            }
          />
        </div>
      ))}
      <FormKeys
        send={words.save}
        leave={words.leave}
        ready={good && entry.name.trim() !== ""}
        onLeave={onLeave}
      />
    </form>
  );
}

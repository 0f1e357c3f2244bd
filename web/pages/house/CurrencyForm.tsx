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

/** Entry of one kind of currency: its name, how it is kept, and what a lapse does at each post. */
export function CurrencyForm({ begin, onSave, onLeave }: Props) {
  const words = useCurrencyWords();
  const { say } = useWords();
  const [entry, setEntry] = useState(begin);
  const [days, setDays] = useState(String(begin.recencyDays ?? ""));
  const count = days.trim() === "" ? null : Number(days);
  const good = count === null || (Number.isInteger(count) && count >= 1 && count <= 3650);
  return (
    <form
      className="register-form"
      aria-label={words.title}
      onSubmit={(e) => {
        e.preventDefault();
        onSave({ ...entry, name: entry.name.trim(), recencyDays: count });
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

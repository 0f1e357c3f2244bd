import { useEffect, useState } from "react";
import type { Currency } from "../../../shared/house/currency.ts";
import { POSTS } from "../../../shared/protocol/posts.ts";
import { type CurrencyRow, currencies } from "../../net/currencies.ts";
import { useCurrencyWords } from "../../words/currency.ts";
import { useWords } from "../../words/words.ts";
import { CurrencyForm } from "./CurrencyForm.tsx";

interface Props {
  may: boolean;
  onTrouble(error: Error | null): void;
}

/** Returns a new kind with an id that nobody has to think of. */
const fresh = (): Currency => ({
  ...{ id: crypto.randomUUID(), name: "", recencyDays: null, retired: false },
  needs: { cockpit: null, fireGuard: null, groundPower: null, supervisor: null },
});

/** The kinds of currency that the house keeps, and what a lapse of each does. */
export function CurrencyKinds({ may, onTrouble }: Props) {
  const words = useCurrencyWords();
  const { say } = useWords();
  const [rows, setRows] = useState<CurrencyRow[] | null>(null);
  const [doing, setDoing] = useState<{ begin: Currency; revision: number | null } | null>(null);
  const read = () => {
    setDoing(null);
    currencies.kinds().then(setRows, onTrouble);
  };
  // biome-ignore lint/correctness/useExhaustiveDependencies: fetch once
  useEffect(read, []);
  const save = (entry: Currency, revision: number | null) => {
    onTrouble(null);
    const sent = revision === null ? currencies.add(entry) : currencies.change(entry, revision);
    sent.then(read, onTrouble);
  };
  const needed = ({ needs }: Currency) =>
    POSTS.flatMap((post) => {
      const rule = needs[post];
      return rule === null ? [] : [`${say.post(post)}: ${words.needs[rule].toLowerCase()}`];
    }).join("; ");
  return (
    <section className="own" aria-label={words.title}>
      <h2>{words.title}</h2>
      <p>{words.lead}</p>
      {rows?.length === 0 && <p className="empty">{words.none}</p>}
      <ul className="device-rows">
        {rows?.map(({ revision, ...kind }) => (
          <li key={kind.id} aria-label={kind.name}>
            <strong>{kind.name}</strong>
            <span>{kind.recencyDays === null ? words.byDate : words.byRecency(kind.recencyDays)}</span>
            {kind.rehearsalDays !== undefined && <span>{words.byRehearsal(kind.rehearsalDays)}</span>}
            <span>{kind.retired ? words.retired : needed(kind)}</span>
            {may && (
              <div className="person-keys">
                <button
                  type="button"
                  className="small-key"
                  onClick={() => setDoing({ begin: kind, revision })}
                >
                  {words.change}
                </button>
                <button
                  type="button"
                  className="small-key"
                  onClick={() => save({ ...kind, retired: !kind.retired }, revision)}
                >
                  {kind.retired ? words.takeBack : words.retire}
                </button>
              </div>
            )}
          </li>
        ))}
      </ul>
      {doing && (
        <CurrencyForm
          key={doing.begin.id}
          begin={doing.begin}
          onSave={(entry) => save(entry, doing.revision)}
          onLeave={() => setDoing(null)}
        />
      )}
      {may && !doing && (
        <button
          type="button"
          className="answer"
          data-tone="yes"
          onClick={() => setDoing({ begin: fresh(), revision: null })}
        >
          {words.add}
        </button>
      )}
    </section>
  );
}

import { useEffect, useState } from "react";
import { WRITTEN_KINDS } from "../../../shared/history/written/written.ts";
import { aircraft as register } from "../../net/aircraft.ts";
import { type Asked, addressOf } from "../../net/search.ts";
import { useSearchWords } from "../../words/search.ts";
import { go } from "../route.ts";

/** The fields of a question. Sending them changes the address. */
export function SearchForm({ asked }: { asked: Asked }) {
  const words = useSearchWords();
  const [draft, setDraft] = useState<Asked>(asked);
  const [known, setKnown] = useState<readonly string[]>(asked.aircraft ? [asked.aircraft] : []);
  useEffect(() => {
    // Without the list the aircraft of the address can still be chosen.
    register.list().then(
      (all) => setKnown((has) => [...new Set([...has, ...all.map(({ id }) => id)])].sort()),
      () => {},
    );
  }, []);
  const narrowed = [asked.kind, asked.aircraft, asked.from, asked.to].some((filter) => filter !== "");
  const put = (part: Partial<Asked>) => setDraft({ ...draft, ...part });
  return (
    <search>
      <form
        className="search-form"
        onSubmit={(e) => {
          e.preventDefault();
          go(`/house/search?${addressOf(draft)}`);
        }}
      >
        <label className="field search-words">
          <span>{words.words}</span>
          <input
            name="q"
            type="search"
            value={draft.q}
            maxLength={200}
            autoComplete="off"
            onChange={(e) => put({ q: e.target.value })}
          />
        </label>
        <button type="submit" className="answer" data-tone="plain">
          {words.search}
        </button>
        <details className="search-more" open={narrowed}>
          <summary>{words.narrow}</summary>
          <div className="search-filters">
            <label className="field">
              <span>{words.kind}</span>
              <select
                name="kind"
                value={draft.kind}
                onChange={(e) => put({ kind: e.target.value as Asked["kind"] })}
              >
                <option value="">{words.any}</option>
                {WRITTEN_KINDS.map((kind) => (
                  <option key={kind} value={kind}>
                    {words.kinds[kind]}
                  </option>
                ))}
              </select>
            </label>
            <label className="field">
              <span>{words.ofAircraft}</span>
              <select
                name="aircraft"
                value={draft.aircraft}
                onChange={(e) => put({ aircraft: e.target.value })}
              >
                <option value="">{words.any}</option>
                {known.map((id) => (
                  <option key={id} value={id}>
                    {id}
                  </option>
                ))}
              </select>
            </label>
            <label className="field">
              <span>{words.from}</span>
              <input
                type="date"
                name="from"
                value={draft.from}
                onChange={(e) => put({ from: e.target.value })}
              />
            </label>
            <label className="field">
              <span>{words.to}</span>
              <input type="date" name="to" value={draft.to} onChange={(e) => put({ to: e.target.value })} />
            </label>
          </div>
        </details>
      </form>
    </search>
  );
}

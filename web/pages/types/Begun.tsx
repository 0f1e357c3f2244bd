import { dayWords } from "../../../shared/words/dates.ts";
import type { BegunRow } from "../../net/begunTypes.ts";
import { useTypeWords } from "../../words/types.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";

/** The types that are begun and not finished. Whoever may enter them goes on with a touch. */
export function Begun({ rows, may }: { rows: readonly BegunRow[]; may: boolean }) {
  const words = useTypeWords();
  const { language } = useWords().say;
  if (rows.length === 0) return null;
  return (
    <section className="type-versions" aria-label={words.begunTitle}>
      <h2>{words.begunTitle}</h2>
      <ul>
        {rows.map(({ id, name, at, by }) => (
          <li key={id}>
            <button
              type="button"
              className="type-row"
              disabled={!may}
              onClick={() => go(`/types/${encodeURIComponent(id)}/begun`)}
            >
              <strong>{name}</strong>
              <span className="type-id">{id}</span>
              <span className="type-by">{words.begunBy(by, dayWords(at, language))}</span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

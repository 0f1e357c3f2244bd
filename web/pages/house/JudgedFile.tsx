import type { ListChange } from "../../../shared/house/lists/list.ts";
import type { JudgedList } from "../../net/lists.ts";
import { TranslatedText } from "../../ui/TranslatedText.tsx";
import { useListWords } from "../../words/lists.ts";
import { useTypeFaults } from "../../words/types.ts";

interface Props {
  /** The file's name. */
  name: string;
  judged: JudgedList;
  onTake(): void;
  onLeave(): void;
}

/** Shows each change that a file would make, line by line, or all of its faults. Nothing is changed before a touch. */
export function JudgedFile({ name, judged: { rows, faults }, onTake, onLeave }: Props) {
  const words = useListWords();
  const translate = useTypeFaults();
  const doing = rows.filter((r) => r.is !== "same");
  const same = rows.length - doing.length;
  return (
    <section className="entry list-judged" aria-label={name}>
      <h3>{name}</h3>
      {faults.length > 0 ? (
        <>
          <p role="alert">{words.faulty(faults.length)}</p>
          <ul className="fault-list">
            {faults.map((f) => (
              <li key={`${f.line} ${f.column} ${f.message}`}>
                {words.place(f.line, f.column)}: <TranslatedText pieces={translate(f.message)} />
              </li>
            ))}
          </ul>
        </>
      ) : (
        <>
          <p role="status">{words.would(doing.length, same)}</p>
          <ul className="list-changes">
            {doing.map((row) => (
              <Change key={row.line} row={row} />
            ))}
          </ul>
        </>
      )}
      <div className="head-keys register-keys">
        {faults.length === 0 && doing.length > 0 && (
          <button type="button" className="answer" data-tone="yes" onClick={onTake}>
            {words.take(doing.length)}
          </button>
        )}
        <button type="button" className="answer" data-tone="plain" onClick={onLeave}>
          {words.leave}
        </button>
      </div>
    </section>
  );
}

function Change({ row: { line, id, is, cells } }: { row: ListChange }) {
  const words = useListWords();
  return (
    <li>
      <strong>{id}</strong> <span>{is === "added" ? words.added(line) : words.changed(line)}</span>
      <dl>
        {cells.map(({ column, before, after }) => (
          <div key={column}>
            <dt>{column}</dt>
            <dd>{is === "added" ? after : words.fromTo(before, after)}</dd>
          </div>
        ))}
      </dl>
    </li>
  );
}

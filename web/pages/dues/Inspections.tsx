import { useEffect, useState } from "react";
import type { Inspection } from "../../../shared/dues/inspection.ts";
import { dayWords } from "../../../shared/words/dates.ts";
import { dues, type InspectionRow } from "../../net/dues.ts";
import { useDuesWords } from "../../words/dues.ts";
import { useWords } from "../../words/words.ts";
import { InspectionDone } from "./InspectionDone.tsx";
import { InspectionForm } from "./InspectionForm.tsx";

interface Props {
  /** True for those who enter inspections. */
  may: boolean;
  onChanged(): void;
  onTrouble(error: Error | null): void;
}

type Doing = { is: "add" } | { is: "change" | "done"; row: InspectionRow };

/** The inspections that the house keeps, with keys to enter them. */
export function Inspections({ may, onChanged, onTrouble }: Props) {
  const words = useDuesWords();
  const { language } = useWords().say;
  const [rows, setRows] = useState<InspectionRow[] | null>(null);
  const [doing, setDoing] = useState<Doing | null>(null);
  const read = () => {
    setDoing(null);
    dues.inspections().then(setRows, onTrouble);
  };
  // biome-ignore lint/correctness/useExhaustiveDependencies: fetch once
  useEffect(read, []);
  const sent = (request: Promise<unknown>) => {
    onTrouble(null);
    request.then(() => {
      read();
      onChanged();
    }, onTrouble);
  };
  const about = (row: Inspection) => {
    const { every, engine, last, source, retired } = row;
    return [
      engine === null ? row.aircraft : `${row.aircraft} ${engine}`,
      eachOf(every, words),
      last === null ? words.never : words.last(dayWords(Date.parse(last.day), language)),
      source,
      ...(retired ? [words.retired] : []),
    ].join(", ");
  };
  const key = (word: string, onClick: () => void) => (
    <button type="button" className="small-key" onClick={onClick}>
      {word}
    </button>
  );
  return (
    <section className="own" aria-label={words.inspections}>
      <h2>{words.inspections}</h2>
      <p>{words.lead2}</p>
      {rows?.length === 0 && <p className="empty">{words.noInspections}</p>}
      <ul className="device-rows">
        {rows?.map((row) => {
          const { revision, ...entry } = row;
          return (
            <li key={row.id} aria-label={row.name}>
              <strong>{row.name}</strong>
              <span>{about(row)}</span>
              {may && (
                <div className="person-keys">
                  {!row.retired && key(words.done, () => setDoing({ is: "done", row }))}
                  {key(words.change, () => setDoing({ is: "change", row }))}
                  {key(row.retired ? words.takeBack : words.retire, () =>
                    sent(dues.change({ ...entry, retired: !row.retired }, revision)),
                  )}
                </div>
              )}
            </li>
          );
        })}
      </ul>
      {doing?.is === "done" && (
        <InspectionDone
          key={doing.row.id}
          row={doing.row}
          onSave={(last, said) => sent(dues.done(doing.row.id, doing.row.revision, last, said))}
          onLeave={() => setDoing(null)}
        />
      )}
      {doing && doing.is !== "done" && (
        <InspectionForm
          key={doing.is === "change" ? doing.row.id : "new"}
          begin={doing.is === "change" ? doing.row : null}
          onSave={(entry) =>
            sent(doing.is === "change" ? dues.change(entry, doing.row.revision) : dues.add(entry))
          }
          onLeave={() => setDoing(null)}
        />
      )}
      {may && !doing && (
        <button type="button" className="answer" data-tone="yes" onClick={() => setDoing({ is: "add" })}>
          {words.add}
        </button>
      )}
    </section>
  );
}

function eachOf(every: Inspection["every"], { each }: ReturnType<typeof useDuesWords>): string {
  switch (every.by) {
    case "days":
      return each.days(every.days);
    case "hours":
      return each.hours(every.hours);
    case "starts":
      return each.starts(every.starts);
  }
}

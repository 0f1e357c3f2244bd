import "../../styles/list-files.css";
import { useState } from "react";
import { LISTS, type ListKind } from "../../../shared/house/lists/list.ts";
import { type JudgedList, lists } from "../../net/lists.ts";
import { saveFile } from "../../net/saveFile.ts";
import { useListWords } from "../../words/lists.ts";
import { useCutOff } from "../CutOff.tsx";
import { JudgedFile } from "./JudgedFile.tsx";

/** A file that was chosen, and what it would do. */
interface Chosen {
  kind: ListKind;
  name: string;
  csv: string;
  judged: JudgedList;
}

/** The house's people, aircraft and equipment as files: out, and in after a look at what would change. */
export function Lists({ onTrouble }: { onTrouble(error: Error | null): void }) {
  const words = useListWords();
  const [chosen, setChosen] = useState<Chosen | null>(null);
  const [done, setDone] = useState<string | null>(null);
  const { cutOff, section } = useCutOff(onTrouble);
  const save = async (kind: ListKind) => saveFile(await lists.save(kind), `chockside-${kind}.csv`);
  const look = async (kind: ListKind, file: File) => {
    onTrouble(null);
    setDone(null);
    try {
      const csv = await file.text();
      setChosen({ kind, name: file.name, csv, judged: await lists.judge(kind, csv) });
    } catch (error) {
      onTrouble(error as Error);
    }
  };
  const take = ({ kind, name, csv, judged }: Chosen) => {
    onTrouble(null);
    const taken = () => {
      setChosen(null);
      setDone(words.taken(name));
    };
    cutOff((sure) => lists.take(kind, csv, judged.tag, sure), taken);
  };
  return (
    <section className="own" aria-label={words.title}>
      <h2>{words.title}</h2>
      <p>{words.lead}</p>
      <ul className="list-files">
        {LISTS.map((kind) => (
          <li key={kind} aria-label={words.kinds[kind]}>
            <strong>{words.kinds[kind]}</strong>
            <button
              type="button"
              className="small-key"
              aria-label={words.saveOf(words.kinds[kind])}
              onClick={() => void save(kind).catch(onTrouble)}
            >
              {words.save}
            </button>
            <label className="small-key file-key">
              {words.read}
              <input
                name={`file-${kind}`}
                type="file"
                accept="text/csv,.csv"
                aria-label={words.readOf(words.kinds[kind])}
                className="visually-hidden"
                onChange={(e) => {
                  const file = e.target.files?.[0];
                  if (file) void look(kind, file);
                  e.target.value = "";
                }}
              />
            </label>
          </li>
        ))}
      </ul>
      {done && <p role="status">{done}</p>}
      {section}
      {chosen && (
        <JudgedFile
          name={chosen.name}
          judged={chosen.judged}
          onTake={() => take(chosen)}
          onLeave={() => setChosen(null)}
        />
      )}
    </section>
  );
}

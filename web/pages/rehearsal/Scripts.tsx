import { useState } from "react";
import { type RehearsalScript, rehearsalScriptSchema } from "../../../shared/rehearsal/script.ts";
import { dayAndMinute } from "../../../shared/words/dates.ts";
import { type HouseScriptRow, rehearsals } from "../../net/rehearsals.ts";
import { later } from "../../ui/later.tsx";
import { useRehearsalWords } from "../../words/rehearsal.ts";
import { useScriptWords } from "../../words/scripts.ts";
import { useWords } from "../../words/words.ts";
import { newScript, type ScriptText, textOfScript } from "./scriptEntry.ts";

const ScriptEditor = later(() => import("./ScriptEditor.tsx").then((m) => m.ScriptEditor));

interface Props {
  scripts: readonly RehearsalScript[];
  /** Those that are kept nowhere. */
  mine: readonly RehearsalScript[];
  /** The house's own, those out of use too. */
  house: readonly HouseScriptRow[];
  chosen: RehearsalScript | null;
  /** True for whoever may keep a script in the house. */
  mayKeep: boolean;
  /** A script is being written, changed or copied; or is no more. */
  onEditing(is: boolean): void;
  onChoose(script: RehearsalScript): void;
  /** A script that is used here and kept nowhere. */
  onOwn(script: RehearsalScript): void;
  /** Called when the house's scripts were changed. */
  onKept(script: RehearsalScript): void;
  onTrouble(error: Error): void;
}

/** The scripts to choose from, and what one may do with the chosen one: save, take in, copy, change, keep. */
export function Scripts({ scripts, mine, house, chosen, mayKeep, ...on }: Props) {
  const { onEditing, onChoose, onOwn, onKept, onTrouble } = on;
  const words = useRehearsalWords();
  const own = useScriptWords();
  const { language } = useWords().say;
  const [editing, setText] = useState<{ text: ScriptText; revision: number | null } | null>(null);
  const setEditing = (to: typeof editing) => {
    setText(to);
    onEditing(to !== null);
  };
  const kept = house.find(({ body }) => body.id === chosen?.id);
  const put = (script: RehearsalScript, retired: boolean, revision: number | null) => {
    const work =
      revision === null
        ? rehearsals.keepScript(script)
        : rehearsals.changeScript({ id: script.id, script, retired }, revision);
    work.then(() => {
      setEditing(null);
      onKept(script);
    }, onTrouble);
  };
  const open = async (file: File | undefined) => {
    if (!file) return;
    try {
      const read = rehearsalScriptSchema.safeParse(JSON.parse(await file.text()));
      if (read.success) onOwn(read.data);
      else onTrouble(new Error(own.badAt(read.error.issues[0]?.path.join(".") || file.name)));
    } catch {
      onTrouble(new Error(own.badFile));
    }
  };
  if (editing)
    return (
      <ScriptEditor
        begin={editing.text}
        send={mayKeep ? own.keep : own.use}
        onSave={(script) => {
          if (mayKeep) return put(script, false, editing.revision);
          onOwn(script);
          setEditing(null);
        }}
        onLeave={() => setEditing(null)}
      />
    );
  const key = (word: string, press: () => void) => (
    <button type="button" className="small-key" onClick={press}>
      {word}
    </button>
  );
  const retired = house.filter(({ body }) => body.retired);
  return (
    <>
      <ul className="rehearsal-scripts">
        {[...scripts, ...mine].map((s) => {
          const of = house.find(({ body }) => body.id === s.id);
          return (
            <li key={s.id}>
              <button
                type="button"
                className="small-key"
                aria-pressed={s.id === chosen?.id}
                onClick={() => onChoose(s)}
              >
                <strong>{s.title[language]}</strong>
                <span>{s.about[language]}</span>
                {of && <span>{`${own.house}: ${own.keptBy(of.by, dayAndMinute(of.at, language))}`}</span>}
              </button>
            </li>
          );
        })}
      </ul>
      <div className="rehearsal-controls">
        {chosen && (
          <a
            className="small-key"
            download={`${chosen.id}.json`}
            href={`data:application/json,${encodeURIComponent(JSON.stringify(chosen, null, 2))}`}
          >
            {words.save}
          </a>
        )}
        {chosen &&
          kept &&
          mayKeep &&
          key(own.change, () => setEditing({ text: textOfScript(chosen), revision: kept.revision }))}
        {chosen && kept && mayKeep && key(own.retire, () => put(kept.body.script, true, kept.revision))}
        {chosen &&
          key(own.copy, () =>
            setEditing({ text: { ...textOfScript(chosen), id: crypto.randomUUID() }, revision: null }),
          )}
        {chosen && mayKeep && mine.includes(chosen) && key(own.keep, () => put(chosen, false, null))}
        {key(own.write, () => setEditing({ text: newScript(crypto.randomUUID()), revision: null }))}
        <label className="field">
          <span>{words.own}</span>
          <input
            type="file"
            accept="application/json,.json"
            onChange={(e) => void open(e.target.files?.[0])}
          />
        </label>
      </div>
      {mayKeep && retired.length > 0 && (
        <details>
          <summary className="small-key">{own.outOfUse}</summary>
          <ul className="rehearsal-scripts">
            {retired.map(({ body, revision }) => (
              <li key={body.id}>
                <span>{body.script.title[language]}</span>{" "}
                {key(own.bring, () => put(body.script, false, revision))}
              </li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}

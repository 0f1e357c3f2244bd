import "../../styles/rehearsalStrip.css";
import { useEffect, useState } from "react";
import { POSTS, type Post } from "../../../shared/protocol/posts.ts";
import { type RehearsalScript, rehearsalScriptSchema } from "../../../shared/rehearsal/script.ts";
import { type RegisteredAircraft, aircraft as register } from "../../net/aircraft.ts";
import { rehearsals } from "../../net/rehearsals.ts";
import { wishFor } from "../../posts/observer/wished.ts";
import { useRehearsalWords } from "../../words/rehearsal.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";
import { SidePage } from "../SidePage.tsx";
import { RehearsalList } from "./RehearsalList.tsx";

/** The page on which a rehearsal is begun: the aircraft, what happens, and one's post. */
export function RehearsePage({ wanted, changed }: { wanted: string | null; changed: number }) {
  const words = useRehearsalWords();
  const { say } = useWords();
  const [all, setAll] = useState<RegisteredAircraft[]>([]);
  const [scripts, setScripts] = useState<RehearsalScript[]>([]);
  const [bird, setBird] = useState(wanted ?? "");
  const [script, setScript] = useState<RehearsalScript | null>(null);
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<Error | null>(null);
  useEffect(() => {
    register.list().then((rows) => {
      const can = rows.filter((r) => r.bar === null && !r.retired);
      setAll(can);
      setBird((before) => before || (can[0]?.id ?? ""));
    }, setTrouble);
    rehearsals.scripts().then((found) => {
      setScripts(found);
      setScript(found[0] ?? null);
    }, setTrouble);
  }, []);
  const begin = async (post: Post | null) => {
    if (!script) return;
    setBusy(true);
    try {
      const { id } = await rehearsals.begin(bird, script, post);
      if (post) wishFor(id, post);
      go(`/session/${id}`);
    } catch (error) {
      setTrouble(error as Error);
      setBusy(false);
    }
  };
  const open = async (file: File | undefined) => {
    if (!file) return;
    try {
      const own = rehearsalScriptSchema.parse(JSON.parse(await file.text()));
      setScripts((before) => [...before.filter((s) => s.id !== own.id), own]);
      setScript(own);
      setTrouble(null);
    } catch {
      setTrouble(new Error(words.badFile));
    }
  };
  const language = say.language;
  return (
    <SidePage title={words.title} lead={words.lead} trouble={trouble}>
      <RehearsalList changed={changed} />
      <label className="field">
        <span>{words.aircraft}</span>
        <select value={bird} onChange={(e) => setBird(e.target.value)}>
          {all.map((a) => (
            <option key={a.id} value={a.id}>{`${a.id}, ${a.typeName}`}</option>
          ))}
        </select>
      </label>
      <h2>{words.script}</h2>
      <ul className="rehearsal-scripts">
        {scripts.map((s) => (
          <li key={s.id}>
            <button
              type="button"
              className="small-key"
              aria-pressed={s.id === script?.id}
              onClick={() => setScript(s)}
            >
              <strong>{s.title[language]}</strong>
              <span>{s.about[language]}</span>
            </button>
          </li>
        ))}
      </ul>
      <div className="rehearsal-controls">
        {script && (
          <a
            className="small-key"
            download={`${script.id}.json`}
            href={`data:application/json,${encodeURIComponent(JSON.stringify(script, null, 2))}`}
          >
            {words.save}
          </a>
        )}
        <label className="field">
          <span>{words.own}</span>
          <input
            type="file"
            accept="application/json,.json"
            onChange={(e) => void open(e.target.files?.[0])}
          />
        </label>
      </div>
      <h2>{words.post}</h2>
      <div className="option-keys">
        {[...POSTS, null].map((post) => (
          <button
            key={post ?? "watch"}
            type="button"
            className="answer"
            data-tone="plain"
            disabled={busy || !script || bird === ""}
            onClick={() => void begin(post)}
          >
            {post === null ? words.watch : say.post(post)}
          </button>
        ))}
      </div>
      {busy && <p>{words.begins}</p>}
    </SidePage>
  );
}

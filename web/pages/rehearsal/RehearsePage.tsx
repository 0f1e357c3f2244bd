import "../../styles/rehearsalStrip.css";
import { useEffect, useState } from "react";
import { POSTS, type Post } from "../../../shared/protocol/posts.ts";
import type { RehearsalScript } from "../../../shared/rehearsal/script.ts";
import { type RegisteredAircraft, aircraft as register } from "../../net/aircraft.ts";
import { type HouseScriptRow, rehearsals } from "../../net/rehearsals.ts";
import { wishFor } from "../../posts/observer/wished.ts";
import { useRehearsalWords } from "../../words/rehearsal.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";
import { SidePage } from "../SidePage.tsx";
import { NothingToRehearse } from "./NothingToRehearse.tsx";
import { RehearsalList } from "./RehearsalList.tsx";
import { Scripts } from "./Scripts.tsx";

interface Props {
  me: { mayHold: readonly Post[] };
  /** The aircraft to begin with; null for the first one. */
  wanted: string | null;
  changed: number;
}

/** The page on which a rehearsal is begun: the aircraft, what happens, and one's post. */
export function RehearsePage({ me, wanted, changed }: Props) {
  const words = useRehearsalWords();
  const { say } = useWords();
  /** The aircraft in service; null while they are fetched. */
  const [inService, setInService] = useState<RegisteredAircraft[] | null>(null);
  const [scripts, setScripts] = useState<RehearsalScript[]>([]);
  const [mine, setMine] = useState<RehearsalScript[]>([]);
  const [house, setHouse] = useState<HouseScriptRow[]>([]);
  const [bird, setBird] = useState(wanted ?? "");
  const [script, setScript] = useState<RehearsalScript | null>(null);
  const [editing, setEditing] = useState(false);
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<Error | null>(null);
  const read = async (choose: string | null) => {
    const [found, kept] = await Promise.all([rehearsals.scripts(), rehearsals.houseScripts()]);
    setScripts(found);
    setHouse(kept);
    setMine((before) => before.filter((own) => !kept.some(({ body }) => body.id === own.id)));
    setScript(found.find(({ id }) => id === choose) ?? found[0] ?? null);
  };
  // biome-ignore lint/correctness/useExhaustiveDependencies: read once
  useEffect(() => {
    register.list().then((rows) => {
      const kept = rows.filter((r) => !r.retired);
      setInService(kept);
      setBird((before) => before || (kept.find((r) => r.bar === null)?.id ?? ""));
    }, setTrouble);
    read(null).catch(setTrouble);
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
  const take = (own: RehearsalScript) => {
    setMine((before) => [...before.filter((s) => s.id !== own.id), own]);
    setScript(own);
    setTrouble(null);
  };
  const all = inService?.filter((r) => r.bar === null) ?? [];
  const lacks = inService !== null && all.length === 0;
  const supervisor = me.mayHold.includes("supervisor");
  return (
    <SidePage title={words.title} lead={words.lead} trouble={trouble}>
      <RehearsalList changed={changed} />
      {lacks ? (
        <NothingToRehearse rows={inService} supervisor={supervisor} />
      ) : (
        <label className="field">
          <span>{words.aircraft}</span>
          <select value={bird} onChange={(e) => setBird(e.target.value)}>
            {all.map((a) => (
              <option key={a.id} value={a.id}>{`${a.id}, ${a.typeName}`}</option>
            ))}
          </select>
        </label>
      )}
      <h2>{words.script}</h2>
      <Scripts
        scripts={scripts}
        mine={mine}
        house={house}
        chosen={script}
        mayKeep={supervisor}
        onEditing={setEditing}
        onChoose={setScript}
        onOwn={take}
        onKept={(kept) => {
          setTrouble(null);
          read(kept.id).catch(setTrouble);
        }}
        onTrouble={setTrouble}
      />
      {!editing && !lacks && (
        <>
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
        </>
      )}
      {busy && <p>{words.begins}</p>}
    </SidePage>
  );
}

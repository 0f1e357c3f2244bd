import { useState } from "react";
import { POSTS, type Post } from "../../../shared/protocol/posts.ts";
import { FAULTS, type FaultKind } from "../../../shared/protocol/rehearsalFaults.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { rehearsalWords } from "../../../shared/words/rehearsed.ts";
import { rehearsals, type SeenWorld } from "../../net/rehearsals.ts";
import { Trouble } from "../../ui/Trouble.tsx";
import { useRehearsalWords } from "../../words/rehearsal.ts";
import { useScriptWords } from "../../words/scripts.ts";
import { useWords } from "../../words/words.ts";
import { GoBack } from "./GoBack.tsx";
import { postsOf } from "./scriptEntry.ts";

const SPEEDS = [1, 2, 3, 4] as const;

/** The instructor's desk, for whoever watches without a post: freeze, speed, a fault now, a mark, the end. */
export function Desk({ state, world, onDone }: { state: SessionState; world: SeenWorld; onDone(): void }) {
  const words = useRehearsalWords();
  const scripts = useScriptWords();
  const { say } = useWords();
  const { faults } = rehearsalWords(say.language);
  const [fault, setFault] = useState<FaultKind>("noOilPressure");
  const [post, setPost] = useState<Post | "">("");
  const [engine, setEngine] = useState(state.order[0] ?? 1);
  const [note, setNote] = useState("");
  const [word, setWord] = useState("");
  const [trouble, setTrouble] = useState<Error | null>(null);
  const ask = (work: Promise<unknown>) =>
    void work.then(
      () => {
        setTrouble(null);
        onDone();
      },
      (error: Error) => setTrouble(error),
    );
  const pace = (frozen: boolean, speed: number) =>
    ask(rehearsals.desk(state.id, { do: "pace", frozen, speed }));
  return (
    <details className="rehearsal-desk">
      <summary className="small-key">{words.desk}</summary>
      <div className="rehearsal-controls">
        <button type="button" className="small-key" onClick={() => pace(!world.frozen, world.speed)}>
          {world.frozen ? words.goOn : words.freeze}
        </button>
        {SPEEDS.map((speed) => (
          <button
            key={speed}
            type="button"
            className="small-key"
            aria-pressed={speed === world.speed}
            onClick={() => pace(world.frozen, speed)}
          >
            {words.speed(speed)}
          </button>
        ))}
        <button type="button" className="small-key" onClick={() => ask(rehearsals.end(state.id))}>
          {words.end}
        </button>
      </div>
      <div className="rehearsal-controls">
        <label className="field">
          <span>{words.throwFault}</span>
          <select value={fault} onChange={(e) => setFault(e.target.value as FaultKind)}>
            {FAULTS.map((kind) => (
              <option key={kind} value={kind}>
                {faults[kind]}
              </option>
            ))}
          </select>
        </label>
        {postsOf(fault).length > 0 && (
          <label className="field">
            <span>{scripts.post}</span>
            <select value={post} onChange={(e) => setPost(e.target.value as Post | "")}>
              <option value="">{scripts.usualPost}</option>
              {postsOf(fault).map((of) => (
                <option key={of} value={of}>
                  {say.post(of)}
                </option>
              ))}
            </select>
          </label>
        )}
        {state.engines.map(({ n }) => (
          <button
            key={n}
            type="button"
            className="small-key"
            aria-pressed={n === engine}
            onClick={() => setEngine(n)}
          >
            {words.engine(n)}
          </button>
        ))}
        <button
          type="button"
          className="small-key"
          onClick={() =>
            ask(
              rehearsals.desk(state.id, {
                ...{ do: "throw", fault, engine },
                ...(post !== "" && postsOf(fault).length > 0 ? { post } : {}),
              }),
            )
          }
        >
          {words.throwNow}
        </button>
      </div>
      <GoBack id={state.id} onAsk={ask} />
      <form
        className="rehearsal-controls"
        onSubmit={(e) => {
          e.preventDefault();
          ask(rehearsals.desk(state.id, { do: "mark", words: note.trim() }).then(() => setNote("")));
        }}
      >
        <label className="field">
          <span>{words.markWords}</span>
          <input value={note} maxLength={140} onChange={(e) => setNote(e.target.value)} />
        </label>
        <button type="submit" className="small-key" disabled={note.trim() === ""}>
          {words.mark}
        </button>
      </form>
      <div className="rehearsal-controls">
        <label className="field">
          <span>{words.sayTo}</span>
          <input value={word} maxLength={140} onChange={(e) => setWord(e.target.value)} />
        </label>
        {POSTS.map((post) => (
          <button
            key={post}
            type="button"
            className="small-key"
            disabled={word.trim() === ""}
            onClick={() =>
              ask(rehearsals.desk(state.id, { do: "say", post, words: word.trim() }).then(() => setWord("")))
            }
          >
            {say.post(post)}
          </button>
        ))}
      </div>
      <Trouble of={trouble} />
    </details>
  );
}

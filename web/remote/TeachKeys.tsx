import { useEffect, useState } from "react";
import { useLaterWords } from "../words/later.ts";
import { type CannotTeach, NOTHING_TAUGHT, type TaughtAct, teach } from "./keyDoes.ts";
import { pressOf } from "./press.ts";
import { keepTaught, useTaught } from "./taught.ts";

const ACTS: readonly TaughtAct[] = ["answer", "hold"];

/** Shows which keys this device was taught, teaches one by a press of it, and forgets both. */
export function TeachKeys() {
  const { remote: words } = useLaterWords();
  const taught = useTaught();
  const [teaching, setTeaching] = useState<TaughtAct | null>(null);
  const [cannot, setCannot] = useState<CannotTeach | null>(null);
  useEffect(() => {
    if (teaching === null) return;
    const press = (event: KeyboardEvent) => {
      if (!event.isTrusted || event.repeat) return;
      const next = teach(taught, teaching, pressOf(event));
      // The window hears a press first: this one neither holds nor answers.
      if (next !== "keptBack") {
        event.preventDefault();
        event.stopImmediatePropagation();
      }
      if (typeof next === "string") return setCannot(next);
      keepTaught(next);
      setTeaching(null);
      setCannot(null);
    };
    addEventListener("keydown", press, true);
    return () => removeEventListener("keydown", press, true);
  }, [teaching, taught]);
  const begin = (act: TaughtAct | null) => {
    setTeaching(act);
    setCannot(null);
  };
  return (
    <section className="teach" aria-label={words.title}>
      <h3>{words.title}</h3>
      <p>{words.what}</p>
      <dl className="teach-keys">
        {ACTS.map((act) => (
          <div key={act}>
            <dt>{words.acts[act]}</dt>
            <dd>{taught[act] === null ? words.none : <kbd lang="en">{taught[act]}</kbd>}</dd>
          </div>
        ))}
      </dl>
      <p role="status">
        {teaching !== null && words.press(words.acts[teaching])}
        {cannot !== null && ` ${words.cannot[cannot]}`}
      </p>
      <div className="option-keys">
        {teaching === null ? (
          ACTS.map((act) => (
            <button key={act} type="button" className="answer" data-tone="plain" onClick={() => begin(act)}>
              {words.teach[act]}
            </button>
          ))
        ) : (
          <button type="button" className="answer" data-tone="plain" onClick={() => begin(null)}>
            {words.stop}
          </button>
        )}
        {(taught.answer !== null || taught.hold !== null) && (
          <button
            type="button"
            className="answer"
            data-tone="plain"
            onClick={() => {
              begin(null);
              keepTaught(NOTHING_TAUGHT);
            }}
          >
            {words.forget}
          </button>
        )}
      </div>
    </section>
  );
}

import "../styles/board.css";
import { useLayoutEffect, useRef, useState } from "react";
import { timeOfDay } from "../../shared/words/dates.ts";
import { useConnectionView, useLight } from "../net/app.ts";
import type { Connection } from "../net/connection.ts";
import { useMoment } from "../net/now.ts";
import { useWakeLock } from "../senses/wakeLock.ts";
import { BoardRow } from "../ui/BoardRow.tsx";
import { LightKey } from "../ui/LightKey.tsx";
import { seconds } from "../ui/numbers.ts";
import { useLaterWords } from "../words/later.ts";
import { useWords } from "../words/words.ts";
import { isFresh } from "./connectionWords.ts";
import { go } from "./route.ts";
import { stripsOf } from "./strips.ts";
import { useSessions } from "./useSessions.ts";

/** Age at which the list, fetched every 4 s, no longer counts as current, milliseconds. */
const OLD_MS = 10_000;

/** The wall board: the ramp on a large screen read from 3 m. Nothing on it can be answered. */
export function BoardPage({ connection }: { connection: Connection }) {
  const words = useWords();
  const { ramp, connection: connectionSays } = words.text;
  const { board } = useLaterWords();
  const view = useConnectionView(connection);
  const moment = useMoment(connection, view);
  const { listed, renewedAt } = useSessions(view.ramp, words);
  const [light, setLight] = useLight();
  useWakeLock();
  const live = stripsOf(listed ?? [], null, words, moment.server).filter((s) => !s.over);
  const { list, hidden } = useHidden(live.length);
  const age = renewedAt === null ? null : moment.panel - renewedAt;
  const old = age !== null && (age > OLD_MS || !isFresh(view, moment.panel));
  return (
    <main className="wall" data-old={old || undefined}>
      <header className="wall-head">
        <h1>{ramp.title}</h1>
        <span className="wall-clock">{timeOfDay(moment.server)}</span>
        <nav className="head-keys">
          <button type="button" className="answer" data-tone="plain" onClick={() => go("/")}>
            {ramp.back}
          </button>
          <LightKey light={light} onLight={setLight} />
        </nav>
      </header>
      {old && (
        <p className="wall-old" role="alert">
          {view.recording ? board.old(seconds(age)) : connectionSays.notRecordingAdvice}
        </p>
      )}
      <ul ref={list} className="wall-rows" aria-label={board.aircraft}>
        {live.map((s) => (
          <BoardRow key={s.id} strip={s} now={moment.server} />
        ))}
        {listed === null && <li className="wall-row">{board.never}</li>}
        {listed !== null && live.length === 0 && <li className="wall-row">{board.none}</li>}
      </ul>
      {hidden > 0 && <p className="wall-more">{board.more(hidden)}</p>}
    </main>
  );
}

/**
 * Returns the number of rows that do not fit completely into the list, which are not drawn because nobody scrolls a
 * wall; and a ref for the list.
 */
function useHidden(count: number) {
  const list = useRef<HTMLUListElement>(null);
  const [hidden, setHidden] = useState(0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: measure again when rows are added or removed
  useLayoutEffect(() => {
    const ul = list.current;
    if (!ul) return;
    const measure = () => {
      const foot = ul.getBoundingClientRect().bottom + 1;
      let out = 0;
      for (const row of ul.children) {
        const fits = row.getBoundingClientRect().bottom <= foot;
        (row as HTMLElement).style.visibility = fits ? "" : "hidden";
        if (!fits) out += 1;
      }
      setHidden(out);
    };
    const seen = new ResizeObserver(measure);
    seen.observe(ul);
    for (const row of ul.children) seen.observe(row);
    return () => seen.disconnect();
  }, [count]);
  return { list, hidden };
}

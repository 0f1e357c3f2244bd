import "../styles/board.css";
import { timeOfDay } from "../../shared/words/dates.ts";
import { useConnectionView, useLight } from "../net/app.ts";
import type { Connection } from "../net/connection.ts";
import { useMoment } from "../net/now.ts";
import { useWakeLock } from "../senses/wakeLock.ts";
import { BoardRow } from "../ui/BoardRow.tsx";
import { LightKey } from "../ui/LightKey.tsx";
import { seconds } from "../ui/numbers.ts";
import type { StripView } from "../ui/Strip.tsx";
import { useLaterWords } from "../words/later.ts";
import { useWords } from "../words/words.ts";
import { isFresh } from "./connectionWords.ts";
import { useFontsReady } from "./fontsReady.ts";
import { go } from "./route.ts";
import { stripsOf } from "./strips.ts";
import { useSessions } from "./useSessions.ts";
import { useWallFit } from "./wallFit.ts";

/** Age at which the list, fetched every 4 s, no longer counts as current, milliseconds. */
const OLD_MS = 10_000;

/** Distance for which the board is made, metres. */
const READ_FROM_M = 3;
/** The font of the engines' numbers, which nothing else on the board uses. */
const NUMBERS = '700 1em "B612 Mono"';
/** Height of a capital by its font size, in B612. */
const CAPITAL = 0.737;
/** Height of a character for 16 minutes of arc per metre of distance: 2 tan(8 minutes). Source: MIL-STD-1472. */
const HEIGHT_PER_M = 2 * Math.tan(((8 / 60) * Math.PI) / 180);

/**
 * The wall board: the ramp on a large screen. The aircraft fill it, however many they are. Nothing on it can be
 * answered.
 */
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
  const ready = useFontsReady(NUMBERS);
  const { list, hidden, px } = useWallFit(ready ? shapeOf(listed && live, words.say.language) : "");
  const from = px === null || !ready ? READ_FROM_M : legibleFrom(px);
  const age = renewedAt === null ? null : moment.panel - renewedAt;
  const old = age !== null && (age > OLD_MS || !isFresh(view, moment.panel));
  return (
    <main className="wall" data-old={old || undefined}>
      <header className="wall-head">
        <h1>{ramp.title}</h1>
        {old && (
          <p className="wall-old" role="alert">
            {view.recording ? board.old(seconds(age)) : connectionSays.notRecordingAdvice}
          </p>
        )}
        <span className="wall-clock">{timeOfDay(moment.server)}</span>
        <nav className="head-keys">
          <button type="button" className="answer" data-tone="plain" onClick={() => go("/")}>
            {ramp.back}
          </button>
          <LightKey light={light} onLight={setLight} />
        </nav>
      </header>
      <ul ref={list} className="wall-rows" aria-label={board.aircraft}>
        {ready && live.map((s) => <BoardRow key={s.id} strip={s} now={moment.server} />)}
        {ready && listed === null && <li className="wall-row">{board.never}</li>}
        {ready && listed !== null && live.length === 0 && <li className="wall-row">{board.none}</li>}
      </ul>
      {hidden > 0 && <p className="wall-more">{board.more(hidden)}</p>}
      <p className="wall-from">{from < READ_FROM_M && board.readFrom(Math.floor(from * 10) / 10)}</p>
    </main>
  );
}

/** Returns the distance from which capitals of this font size are 16 minutes of arc high, in metres. */
function legibleFrom(px: number): number {
  const mm = Number.parseFloat(getComputedStyle(document.documentElement).getPropertyValue("--mm-here"));
  const perMm = Number.isFinite(mm) ? mm : 96 / 25.4;
  return (px * CAPITAL) / perMm / 1000 / HEIGHT_PER_M;
}

/**
 * Returns what decides the space of the rows. Digits are alike, so that a running second changes nothing.
 * @param rows null until the list was fetched: an empty list says something else, and longer
 */
function shapeOf(rows: readonly StripView[] | null, language: string): string {
  const said = rows?.map((r) => [r.id, r.aircraft, r.stage, r.needs?.words, r.engines.map((e) => e.word)]);
  return language + JSON.stringify(said ?? null).replaceAll(/\d/g, "0");
}

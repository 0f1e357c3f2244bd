import "../styles/ramp.css";
import { Suspense, useEffect, useState } from "react";
import type { Post } from "../../shared/protocol/posts.ts";
import { api, signOut, useConnectionView } from "../net/app.ts";
import type { Connection } from "../net/connection.ts";
import { device, type Me } from "../net/keep.ts";
import { useMoment } from "../net/now.ts";
import { Caution } from "../posts/shared/Caution.tsx";
import { later as laterPart } from "../ui/later.tsx";
import { Strip } from "../ui/Strip.tsx";
import { Trouble } from "../ui/Trouble.tsx";
import type { LaterWords } from "../words/en/later.ts";
import { useLaterWords } from "../words/later.ts";
import { useWords } from "../words/words.ts";
import { EmptyRamp } from "./EmptyRamp.tsx";
import { PaperKey } from "./PaperKey.tsx";
import type { Play } from "./played.ts";
import { RampCard } from "./RampCard.tsx";
import { rampRow } from "./rampRows.ts";
import { go } from "./route.ts";
import { stripsOf } from "./strips.ts";
import { useSessions } from "./useSessions.ts";

const AtAircraft = laterPart(() => import("./AtAircraft.tsx").then((m) => m.AtAircraft));
const DeviceSheet = laterPart(() => import("./DeviceSheet.tsx").then((m) => m.DeviceSheet));
const DemoStart = laterPart(() => import("./DemoStart.tsx").then((m) => m.DemoStart));
const RehearsalList = laterPart(() => import("./rehearsal/RehearsalList.tsx").then((m) => m.RehearsalList));
const HouseSteps = laterPart(() => import("./HouseSteps.tsx").then((m) => m.HouseSteps));

/** Every session on the ramp as a strip, with keys to plan and join one. */
interface Props {
  me: Me;
  connection: Connection;
  /** Joining code in the address. */
  join: string | null;
  /** The demo's crew that the address asks for. */
  play: Play | null;
}

export function Ramp({ me, connection, join, play }: Props) {
  const words = useWords();
  const { ramp: says } = words.text;
  const later = useLaterWords();
  const { rampPage } = later;
  const view = useConnectionView(connection);
  const { ramp } = view;
  const { listed, trouble } = useSessions(ramp, words);
  const [setting, setSetting] = useState(false);
  const { server } = useMoment(connection, view);
  const strips = stripsOf(listed ?? [], null, words, server);
  const live = strips.filter((s) => !s.over);
  const over = strips.filter((s) => s.over);
  const rows = live.flatMap((strip) => {
    const of = (listed ?? []).find((l) => l.row.id === strip.id);
    return of ? [rampRow(strip, of, { id: me.id, device: device().id }, words, server)] : [];
  });
  const empty = listed !== null && live.length === 0;
  return (
    <main className="page ramp">
      <header className="page-head page-head-row">
        <div>
          <h1>{says.title}</h1>
          <p>{says.signedIn(me.name)}</p>
        </div>
        <nav className="head-keys">
          {!empty && (
            <button type="button" className="answer" data-tone="yes" onClick={() => go("/plan")}>
              {says.plan}
            </button>
          )}
          <button type="button" className="answer" data-tone="plain" onClick={() => setSetting(true)}>
            {rampPage.device}
          </button>
        </nav>
      </header>
      {setting && (
        <Suspense>
          <DeviceSheet person={me.id} onClose={() => setSetting(false)} />
        </Suspense>
      )}
      <Trouble of={trouble} />
      <section
        className="board"
        aria-label={later.rampPage.live}
        data-asking={(listed === null && trouble === null) || undefined}
      >
        {rows.map((row) => (
          <div key={row.strip.id} className="ramp-entry">
            <RampCard row={row} onOpen={() => go(`/session/${row.strip.id}`)} />
            <HistoryKey aircraft={row.aircraft} />
          </div>
        ))}
        {empty && <EmptyRamp onPlan={() => go("/plan")} />}
        {listed === null && trouble === null && <p className="empty">{says.asking}</p>}
      </section>
      {me.demo && (empty || play !== null) && (
        <Suspense>
          <DemoStart me={me} play={play} />
        </Suspense>
      )}
      <Suspense>
        <RehearsalList changed={ramp} />
      </Suspense>
      <Join code={join} />
      {!me.demo && (
        <Suspense>
          <HouseSteps me={me} />
        </Suspense>
      )}
      <Suspense>
        <AtAircraft ramp={ramp} mayEnd={me.mayHold.includes("supervisor")} />
      </Suspense>
      {over.length > 0 && (
        <section className="board" aria-label={later.rampPage.over}>
          <h2>{later.rampPage.ended}</h2>
          {over.slice(0, ENDED).map((s) => (
            <Strip key={s.id} strip={s} onOpen={() => go(`/session/${s.id}/record`)} />
          ))}
        </section>
      )}
      <nav className="head-keys ramp-more" aria-label={later.rampPage.more}>
        {LINKS.map(({ to, word, only }) =>
          only && !only.some((post) => me.mayHold.includes(post)) ? null : (
            <button key={to} type="button" className="small-key" onClick={() => go(to)}>
              {word(later)}
            </button>
          ),
        )}
        <PaperKey path="/api/card.pdf" word={later.rampPage.card} />
        <button type="button" className="small-key" onClick={() => void signOut()}>
          {says.signOut}
        </button>
      </nav>
      <Caution />
    </main>
  );
}

/** A key that opens the history of a card's aircraft. */
function HistoryKey({ aircraft }: { aircraft: string }) {
  const { rampPage } = useLaterWords();
  return (
    <button
      type="button"
      className="small-key"
      onClick={() => go(`/aircraft/${encodeURIComponent(aircraft)}/history`)}
    >
      {rampPage.history(aircraft)}
    </button>
  );
}

/** Sessions that are over in the list; older ones are in their aircraft's history. */
const ENDED = 20;

/** The house's pages, for the quiet row. */
const LINKS: readonly {
  to: string;
  word(words: LaterWords): string;
  only?: readonly Post[];
}[] = [
  { to: "/board", word: (words) => words.board.title },
  { to: "/aircraft", word: ({ rampPage }) => rampPage.aircraft },
  { to: "/equipment", word: (words) => words.house.equipment },
  { to: "/types", word: ({ rampPage }) => rampPage.types },
  { to: "/rehearse", word: (words) => words.rampPage.rehearse },
  { to: "/study", word: ({ rampPage }) => rampPage.signals },
  { to: "/devices", word: ({ rampPage }) => rampPage.devices, only: ["supervisor"] },
  { to: "/people", word: ({ rampPage }) => rampPage.people },
  { to: "/dues", word: (words) => words.house.dues, only: ["cockpit", "supervisor"] },
  { to: "/house/starts", word: (words) => words.rampPage.starts },
  { to: "/house/search", word: (words) => words.rampPage.search },
  { to: "/house", word: (words) => words.house.title },
];

/** Joins a session by a code, from the address or entered. */
function Join({ code }: { code: string | null }) {
  const { rampPage } = useLaterWords();
  const [typed, setTyped] = useState("");
  const [trouble, setTrouble] = useState<Error | null>(null);
  const enter = (given: string) =>
    api.join(given.trim().toUpperCase()).then(({ id }) => go(`/session/${id}`), setTrouble);
  // biome-ignore lint/correctness/useExhaustiveDependencies: once for the code in the address
  useEffect(() => {
    if (code) void enter(code);
  }, [code]);
  return (
    <form
      className="join"
      onSubmit={(e) => {
        e.preventDefault();
        void enter(typed);
      }}
    >
      <label className="field">
        <span>{rampPage.code}</span>
        <input
          name="code"
          value={typed}
          maxLength={8}
          autoComplete="off"
          onChange={(e) => setTyped(e.target.value.toUpperCase())}
        />
      </label>
      <button type="submit" className="answer" data-tone="plain" disabled={typed.trim().length < 6}>
        {rampPage.join}
      </button>
      <Trouble of={trouble} />
    </form>
  );
}

import { Suspense, useEffect, useMemo, useState } from "react";
import { columnsOf, exchangeRows } from "../../shared/paper/exchange.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { timeOfDay } from "../../shared/words/dates.ts";
import { namedFor } from "../../shared/words/erased.ts";
import { lookupOf, sayActor, sayEvent } from "../../shared/words/events.ts";
import { api } from "../net/app.ts";
import { eventsSince } from "../net/eventsSince.ts";
import { saveFile } from "../net/saveFile.ts";
import { Caution } from "../posts/shared/Caution.tsx";
import { ExchangeChart } from "../ui/charts/ExchangeChart.tsx";
import { later } from "../ui/later.tsx";
import { Trouble } from "../ui/Trouble.tsx";
import { useUnits } from "../ui/units.ts";
import { useLaterWords } from "../words/later.ts";
import { useWords } from "../words/words.ts";
import { PaperKey } from "./PaperKey.tsx";
import { go } from "./route.ts";

const Debrief = later(() => import("./rehearsal/Debrief.tsx").then((m) => m.Debrief));

const Measured = later(() => import("./history/Measured.tsx").then((m) => m.Measured));

const FORMS = ["ndjson", "json", "csv"] as const;
const ALL = 5_000;

/** The session's record in words and as a chart, and its exports. */
export function RecordPage({ id }: { id: string }) {
  const [fetched, setFetched] = useState<SessionEvent[] | null>(null);
  const units = useUnits();
  const { say, text } = useWords();
  const events = useMemo(() => fetched && namedFor(fetched, say), [fetched, say]);
  const { app } = text;
  const { record: words } = useLaterWords();
  const [trouble, setTrouble] = useState<Error | null>(null);
  useEffect(() => {
    eventsSince(id, 0).then(setFetched, setTrouble);
  }, [id]);
  const save = (as: (typeof FORMS)[number]) =>
    api
      .send("GET", `/api/sessions/${id}/evidence?as=${as}`)
      .then((file) => file.blob())
      .then((bytes) => saveFile(bytes, `chockside-${id}.${as}`), setTrouble);
  const first = events?.[0]?.fact;
  const lookup = lookupOf(events ?? [], say);
  return (
    <main className="page record">
      <header
        className="page-head page-head-row"
        data-asking={(events === null && trouble === null) || undefined}
      >
        <div>
          <h1>{first?.type === "planned" ? words.titleOf(first.aircraft) : words.title}</h1>
          {(events || trouble === null) && <p>{events ? words.count(events.length) : app.fetching}</p>}
        </div>
        <nav className="head-keys">
          <PaperKey path={`/api/sessions/${id}/record.pdf`} word={words.print} />
          <PaperKey path={`/api/sessions/${id}/record.pdf?form=full`} word={words.printFull} />
          {FORMS.map((f) => (
            <button key={f} type="button" className="answer" data-tone="plain" onClick={() => void save(f)}>
              {words.forms[f]}
            </button>
          ))}
          {first?.type === "planned" && (
            <button
              type="button"
              className="answer"
              data-tone="plain"
              onClick={() => go(`/aircraft/${encodeURIComponent(first.aircraft)}/history`)}
            >
              {words.history}
            </button>
          )}
          <button type="button" className="answer" data-tone="plain" onClick={() => go(`/session/${id}`)}>
            {words.session}
          </button>
        </nav>
      </header>
      <Trouble of={trouble} />
      {events && (
        <Suspense fallback={null}>
          <Debrief events={events} />
          <Measured events={events} />
        </Suspense>
      )}
      {events && (
        <div className="record-body">
          <ol className="record-list">
            {events.map((e) => (
              <li key={e.seq} data-type={e.fact.type}>
                <span className="record-seq">{e.seq}</span>
                <span className="record-time">{timeOfDay(e.at)}</span>
                <span>
                  {sayEvent(e, lookup, units)}
                  <span className="record-by">{sayActor(e, say)}</span>
                </span>
              </li>
            ))}
          </ol>
          <ExchangeChart columns={columnsOf(say)} rows={exchangeRows(events, say, units)} newest={ALL} />
        </div>
      )}
      <Caution />
    </main>
  );
}

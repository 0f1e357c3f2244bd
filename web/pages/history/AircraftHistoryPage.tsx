import { useCallback, useEffect, useState } from "react";
import type { StandingItem } from "../../../shared/protocol/standing.ts";
import { type RegisteredAircraft, aircraft as register } from "../../net/aircraft.ts";
import { api } from "../../net/app.ts";
import { type AircraftHistory, histories } from "../../net/history.ts";
import type { Me } from "../../net/keep.ts";
import { useHistoryWords } from "../../words/history.ts";
import { usePictureWords } from "../../words/pictures.ts";
import { useWords } from "../../words/words.ts";
import { itemWords } from "../itemWords.ts";
import { go } from "../route.ts";
import { SidePage } from "../SidePage.tsx";
import { useRenewed } from "../useRenewed.ts";
import { DefectTrendChart } from "./DefectTrendChart.tsx";
import { FileKey } from "./FileKey.tsx";
import { InventedYear } from "./InventedYear.tsx";
import { Notes } from "./Notes.tsx";
import { SaveKey } from "./SaveKey.tsx";
import { StartsTable } from "./StartsTable.tsx";

/** One aircraft's history: what its engines do otherwise, what stands at it, its engines, and every start. */
export function AircraftHistoryPage({ id, me, changed }: { id: string; me: Me; changed: number }) {
  const words = useHistoryWords();
  const { ramp } = useWords().text;
  const [history, setHistory] = useState<AircraftHistory | null>(null);
  const [entry, setEntry] = useState<RegisteredAircraft | null>(null);
  const [items, setItems] = useState<StandingItem[] | null>(null);
  const [trouble, setTrouble] = useState<Error | null>(null);
  const readStanding = () =>
    void api
      .json<{ items: StandingItem[] }>("GET", `/api/aircraft/${encodeURIComponent(id)}/standing`)
      .then((s) => setItems(s.items), setTrouble);
  useRenewed(changed, readStanding);
  const read = useCallback(() => {
    histories.aircraft(id).then(setHistory, setTrouble);
    register.one(id).then(setEntry, setTrouble);
  }, [id]);
  useEffect(read, [read]);
  const [empty, setEmpty] = useState(false);
  // Once the year is made its keys stay, although the history is no longer empty.
  if (history?.rows.length === 0 && !empty) setEmpty(true);
  return (
    <SidePage
      title={words.aircraftTitle(id)}
      lead={history ? words.aircraftLead(history.rows.length) : ""}
      trouble={trouble}
      keys={
        <button
          type="button"
          className="answer"
          data-tone="plain"
          onClick={() => go(`/aircraft/${encodeURIComponent(id)}`)}
        >
          {words.register}
        </button>
      }
    >
      <div className="history-body">
        {history === null && trouble === null && <p className="empty">{ramp.asking}</p>}
        {me.demo && empty && <InventedYear onMade={read} onTrouble={setTrouble} />}
        {history && <Notes notes={history.notes} linked />}
        {items && <Standing items={items} />}
        {/* The year's starts change what is known of the defects. */}
        <DefectTrendChart key={history?.rows.length ?? 0} id={id} onTrouble={setTrouble} />
        {entry && <Engines entry={entry} />}
        <Files id={id} table={history !== null} onTrouble={setTrouble} />
        {history &&
          (history.rows.length === 0 ? (
            <p className="empty">{words.none}</p>
          ) : (
            <StartsTable rows={history.rows} />
          ))}
        {history?.more && <p>{words.more}</p>}
      </div>
    </SidePage>
  );
}

/** Keys that save the starts, the whole history and the defects' pictures. */
function Files({ id, table, onTrouble }: { id: string; table: boolean; onTrouble(error: Error): void }) {
  const words = useHistoryWords();
  const pictureWords = usePictureWords();
  const path = `/api/aircraft/${encodeURIComponent(id)}`;
  return (
    <section className="own" aria-label={words.files}>
      <h2>{words.files}</h2>
      <div className="head-keys">
        {table && <SaveKey of={{ aircraft: id }} onTrouble={onTrouble} />}
        <FileKey
          path={`${path}/evidence`}
          name={`${id}-history`}
          ending="ndjson"
          large
          word={words.saveAll}
          onTrouble={onTrouble}
        />
        <FileKey
          path={`${path}/pictures`}
          name={`${id}-pictures`}
          ending="tar"
          large
          word={pictureWords.saveAll}
          onTrouble={onTrouble}
        />
      </div>
    </section>
  );
}

/** Open defects and everything else that stands at the aircraft. */
function Standing({ items }: { items: readonly StandingItem[] }) {
  const words = useHistoryWords();
  const all = useWords();
  return (
    <section className="own" aria-label={words.standing}>
      <h2>{words.standing}</h2>
      {items.length === 0 && <p className="history-quiet">{words.nothingStands}</p>}
      <ul className="history-standing">
        {items.map(({ no, item }) => (
          <li key={no}>{itemWords(item, all)}</li>
        ))}
      </ul>
    </section>
  );
}

/** A way to each engine that has a serial number. */
function Engines({ entry }: { entry: RegisteredAircraft }) {
  const words = useHistoryWords();
  if (entry.fitted.length === 0) return null;
  return (
    <section className="own" aria-label={words.engines}>
      <h2>{words.engines}</h2>
      <ul className="history-engines">
        {entry.fitted.map(({ n, engine }) => (
          <li key={n}>
            <strong className="fitted-number">{n}</strong>
            {engine.serial === null ? (
              <span>{words.noSerial(n)}</span>
            ) : (
              <button
                type="button"
                className="small-key"
                onClick={() => go(`/engines/${encodeURIComponent(engine.serial ?? "")}`)}
              >
                {words.engineTitle(engine.serial)}
              </button>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

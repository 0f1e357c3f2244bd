import { useCallback, useEffect, useState } from "react";
import type { FirePlace } from "../../shared/protocol/signals.ts";
import { enginesOf, placesOf } from "../../shared/stops/fireSeats.ts";
import { outcomesOf } from "../../shared/words/outcomes.ts";
import { reportAt } from "../net/aircraftReport.ts";
import type { StandingRow } from "../net/api.ts";
import { api } from "../net/app.ts";
import { isLocated } from "../posts/shared/openFire.ts";
import { FireKeys } from "../ui/FireKeys.tsx";
import { Trouble } from "../ui/Trouble.tsx";
import type { Words } from "../words/catalogue.ts";
import { useLaterWords } from "../words/later.ts";
import { useWords } from "../words/words.ts";
import { itemWords } from "./itemWords.ts";

/** The fire whose number and place are asked: the one just reported, or one that stands under `no`. */
interface OpenFire {
  aircraft: string;
  no: number | null;
  /** Messages that were said since it was opened. */
  engine: number | null;
  place: FirePlace | null;
}

/**
 * Every aircraft with what stands there, and keys to hold, cut or report fire without joining a session. One touch
 * sends: whoever sees danger from the ramp has no time to find a session first. A fire's number and place follow.
 */
export function AtAircraft({ ramp, mayEnd }: { ramp: number; mayEnd: boolean }) {
  const words = useWords();
  const { atAircraft: says } = useLaterWords();
  const [rows, setRows] = useState<StandingRow[] | null>(null);
  const [trouble, setTrouble] = useState<Error | null>(null);
  const [heard, setHeard] = useState<string | null>(null);
  const [fire, setFire] = useState<OpenFire | null>(null);
  const renew = useCallback(() => api.standing().then(setRows, setTrouble), []);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a change of `ramp` triggers a new request
  useEffect(() => {
    void renew();
  }, [ramp, renew]);
  const report = async (aircraft: string, action: object, said: string) => {
    try {
      const answer = await reportAt(aircraft, action);
      setTrouble(null);
      setHeard(answer.status === "accepted" ? said : outcomesOf(words.say).refusal(answer.refusal));
      await renew();
      return answer.status === "accepted";
    } catch (error) {
      setTrouble(error as Error);
    }
    return false;
  };
  const stop = async ({ aircraft, name }: StandingRow, is: "hold" | "cut" | "fire") => {
    const kept = await report(aircraft, { type: "stop", is }, says.sent[is](name));
    if (kept && is === "fire") setFire({ aircraft, no: null, engine: null, place: null });
  };
  const locate = (more: { engine: number } | { place: FirePlace }) => {
    if (fire === null) return;
    const next = { ...fire, ...more };
    setFire(isLocated(next) ? null : next);
    const about = fire.no === null ? {} : { no: fire.no };
    void report(fire.aircraft, { type: "fireAt", ...about, ...more }, says.located);
  };
  if (rows === null) return <Trouble of={trouble} />;
  return (
    <section className="at-aircraft" aria-label={says.region}>
      <h2>{says.region}</h2>
      <Trouble of={trouble} />
      {heard && <p role="status">{heard}</p>}
      {rows.map((row) => (
        <article key={row.aircraft} className="at-aircraft-row" aria-label={row.name}>
          <h3>{row.name}</h3>
          <ul>
            {row.items.length === 0 && <li>{says.nothing}</li>}
            {row.items.map(({ no, item }) => (
              <li key={no} data-kind={item.is}>
                <span>{itemWords(item, words)}</span>
                {item.is === "fire" && (
                  <button
                    type="button"
                    className="small-key"
                    onClick={() => setFire({ aircraft: row.aircraft, no, engine: null, place: null })}
                  >
                    {words.text.standing.locate}
                  </button>
                )}
                {mayEnd && row.open.length === 0 && (
                  <button
                    type="button"
                    className="small-key"
                    onClick={() =>
                      void report(row.aircraft, { type: "end", no, reason: says.endedHere }, says.ended)
                    }
                  >
                    {says.end}
                  </button>
                )}
              </li>
            ))}
          </ul>
          <nav className="head-keys" aria-label={says.stops(row.name)}>
            {(["hold", "cut", "fire"] as const).map((is) => (
              <button
                key={is}
                type="button"
                className="answer"
                data-tone="no"
                onClick={() => void stop(row, is)}
              >
                {says.keys[is]}
              </button>
            ))}
          </nav>
          {fire?.aircraft === row.aircraft && (
            <section className="entry" aria-label={fireWords(fire, words)}>
              <h4>{fireWords(fire, words)}</h4>
              <FireKeys
                numbers={row.engines}
                said={saidOf(fire, row)}
                onEngine={(engine) => locate({ engine })}
                onPlace={(place) => locate({ place })}
              />
            </section>
          )}
        </article>
      ))}
    </section>
  );
}

function fireWords({ no }: OpenFire, { text }: Words): string {
  return no === null ? text.stops.fireSent : text.stops.fireWhere;
}

/** Returns what is marked on the keys: what stands, and what was touched since. */
function saidOf({ no, engine, place }: OpenFire, { items }: StandingRow) {
  const item = items.find((i) => i.no === no)?.item;
  const stands = item?.is === "fire" ? item : null;
  return {
    engines: [...(engine === null ? [] : [engine]), ...(stands ? enginesOf(stands) : [])],
    places: [...(place === null ? [] : [place]), ...(stands ? placesOf(stands) : [])],
  };
}

import { useState } from "react";
import { written } from "../../shared/words/quantity.ts";
import { useLaterWords } from "../words/later.ts";

interface Props {
  /** Seconds since the flash whose thunder is awaited; null when there is none. */
  since: number | null;
  /** The present lightning state, in words. */
  stands: string;
  stops: boolean;
  rule: string;
  /** Without a fresh connection a flash may be sent, but not its distance. */
  fresh: boolean;
  onFlash(): void;
  onThunder(seconds: number): void;
  onDistance(miles: number): void;
}

const MILES = [1, 2, 3, 4, 5, 6, 7, 8, 10, 12, 15, 20];

/** Entry of lightning: two touches for a flash and its thunder, or one for a distance. */
export function LightningEntry(p: Props) {
  const { air: weather, airEntry: air } = useLaterWords();
  const [far, setFar] = useState(false);
  if (far) {
    return (
      <section className="entry" aria-label={air.howFar}>
        <h3>{air.howFar}</h3>
        <div className="unit-keys">
          {MILES.map((miles) => (
            <button
              key={miles}
              type="button"
              className="unit-key"
              disabled={!p.fresh}
              onClick={() => {
                p.onDistance(miles);
                setFar(false);
              }}
            >
              {written({ value: miles, unit: "mi" })}
            </button>
          ))}
        </div>
        <button type="button" className="answer" data-tone="plain" onClick={() => setFar(false)}>
          {air.back}
        </button>
      </section>
    );
  }
  const { since } = p;
  return (
    <section className="entry" aria-label={weather.lightningKey}>
      <p className="lightning-stands" data-stops={p.stops || undefined} role="status">
        {p.stands}
      </p>
      {since === null ? (
        <>
          <p>{air.flashFirst}</p>
          <button type="button" className="lightning-key" data-tone="no" onClick={p.onFlash}>
            {air.flashNow}
          </button>
        </>
      ) : (
        <>
          <p className="lightning-count">{air.sinceFlash(since, (since / 5).toFixed(1))}</p>
          <p>{air.flashCounts}</p>
          <button
            type="button"
            className="lightning-key"
            data-tone="yes"
            disabled={!p.fresh}
            onClick={() => p.onThunder(since)}
          >
            {air.thunderNow}
          </button>
        </>
      )}
      <div className="answers">
        <button type="button" className="answer" data-tone="plain" onClick={() => setFar(true)}>
          {air.distance}
        </button>
        {since !== null && (
          <button type="button" className="answer" data-tone="plain" onClick={p.onFlash}>
            {air.flashAgain}
          </button>
        )}
      </div>
      <p>{p.rule}</p>
    </section>
  );
}

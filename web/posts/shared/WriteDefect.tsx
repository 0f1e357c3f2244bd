import { useState } from "react";
import { ReasonEntry } from "../../ui/ReasonEntry.tsx";
import { useLaterWords } from "../../words/later.ts";

/** A defect as it is written. */
export interface WrittenDefect {
  words: string;
  engine?: number;
  barsStart: boolean;
}

interface Props {
  /** The aircraft's engines. */
  engines: readonly number[];
  /** False while nothing can be sent. */
  fresh: boolean;
  onWrite(defect: WrittenDefect): void;
  onDone(): void;
}

/** Asks one question at a time: place, description, and whether a start may go on with the defect. */
export function WriteDefect({ engines, fresh, onWrite, onDone }: Props) {
  const [engine, setEngine] = useState<number | null | undefined>(undefined);
  const [what, setWhat] = useState<string | null>(null);
  const words = useLaterWords().defects;
  const write = (barsStart: boolean) => {
    if (what === null) return;
    onWrite({ words: what, barsStart, ...(engine == null ? {} : { engine }) });
    onDone();
  };
  if (engine === undefined) {
    return (
      <section className="entry" aria-label={words.where}>
        <h3>{words.where}</h3>
        <div className="option-keys">
          {engines.map((n) => (
            <button key={n} type="button" className="answer" data-tone="plain" onClick={() => setEngine(n)}>
              {words.engine(n)}
            </button>
          ))}
          <button type="button" className="answer" data-tone="plain" onClick={() => setEngine(null)}>
            {words.theAircraft}
          </button>
          <button type="button" className="answer" data-tone="plain" onClick={onDone}>
            {words.back}
          </button>
        </div>
      </section>
    );
  }
  if (what === null) {
    return (
      <ReasonEntry
        prompt={words.what}
        usual={words.usual}
        word={words.go}
        disabled={false}
        onEnter={setWhat}
        onBack={() => setEngine(undefined)}
      />
    );
  }
  return (
    <section className="entry" aria-label={words.judge(what)}>
      <h3>{words.judge(what)}</h3>
      <div className="answers">
        <button type="button" className="answer" data-tone="no" disabled={!fresh} onClick={() => write(true)}>
          {words.bars}
        </button>
        <button
          type="button"
          className="answer"
          data-tone="plain"
          disabled={!fresh}
          onClick={() => write(false)}
        >
          {words.barsNot}
        </button>
        <button type="button" className="answer" data-tone="plain" onClick={() => setWhat(null)}>
          {words.back}
        </button>
      </div>
    </section>
  );
}

import { Suspense, useState } from "react";
import { useLaterWords } from "../words/later.ts";
import { later } from "./later.tsx";

/** The parser of reports is large, and few panels need it. */
const ReportRead = later(() => import("./ReportRead.tsx").then((m) => m.ReportRead));

interface Props {
  now: number;
  mostAge: number;
  disabled: boolean;
  onEnter(metar: string): void;
  onByHand(): void;
  onBack(): void;
}

/** Longest report a message may carry, characters. */
const LONGEST = 500;

/** Entry of a METAR, pasted by one key or typed. Its parsed content is shown below before it is sent. */
export function ReportEntry({ now, mostAge, disabled, onEnter, onByHand, onBack }: Props) {
  const { air: weather, airEntry: air } = useLaterWords();
  const [pasted, setPasted] = useState("");
  const [trouble, setTrouble] = useState<string | null>(null);
  const metar = pasted.trim().replace(/\s+/g, " ").slice(0, LONGEST);
  const paste = () =>
    navigator.clipboard.readText().then(
      (copied) => {
        setPasted(copied);
        setTrouble(null);
      },
      () => setTrouble(air.cannotPaste),
    );
  return (
    <section className="entry" aria-label={weather.report}>
      <label className="field">
        <span>{air.reportLabel}</span>
        <textarea
          name="report"
          value={pasted}
          rows={3}
          maxLength={LONGEST}
          autoCapitalize="characters"
          autoComplete="off"
          spellCheck={false}
          onChange={(e) => setPasted(e.target.value)}
        />
      </label>
      {trouble && (
        <p className="trouble" role="alert">
          {trouble}
        </p>
      )}
      {metar === "" ? (
        <p>{air.emptyReport}</p>
      ) : (
        <Suspense>
          <ReportRead
            metar={metar}
            now={now}
            mostAge={mostAge}
            disabled={disabled}
            onSend={() => onEnter(metar)}
          />
        </Suspense>
      )}
      <div className="answers">
        {navigator.clipboard && (
          <button type="button" className="answer" data-tone="plain" onClick={() => void paste()}>
            {air.paste}
          </button>
        )}
        <button type="button" className="answer" data-tone="plain" onClick={onByHand}>
          {air.byHand}
        </button>
        <button type="button" className="answer" data-tone="plain" onClick={onBack}>
          {air.back}
        </button>
      </div>
    </section>
  );
}

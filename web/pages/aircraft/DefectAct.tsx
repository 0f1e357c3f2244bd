import { useState } from "react";
import type { DefectRow } from "../../net/aircraft.ts";
import { FormKeys } from "../../ui/FormKeys.tsx";
import { useDefectLifeWords } from "../../words/defectLife.ts";

/** An act on a defect. */
export type DefectDoing = "defer" | "close" | "inspect";

interface Props {
  is: DefectDoing;
  defect: DefectRow;
  /** Sends an action on the aircraft's record. */
  onSend(action: object): void;
  onLeave(): void;
}

/** Defers a defect to a day or for some starts with a reason, closes it with what was done, or inspects it. */
export function DefectAct({ is, defect: { no, words: said }, onSend, onLeave }: Props) {
  const words = useDefectLifeWords();
  const [until, setUntil] = useState("");
  const [count, setCount] = useState("");
  const [typed, setTyped] = useState("");
  const reason = typed.trim();
  const defers = is === "defer";
  const starts = Number(count);
  const counts = count.trim() !== "" && Number.isInteger(starts) && starts >= 1 && starts <= 1_000;
  const prompt = { defer: words.why, close: words.done, inspect: words.found }[is];
  const action = {
    defer: {
      type: "deferDefect",
      ...{ no, reason },
      ...(until === "" ? {} : { until }),
      ...(counts ? { starts } : {}),
    },
    close: { type: "end", no, reason },
    inspect: { type: "inspectDefect", no, reason },
  }[is];
  return (
    <form
      className="register-form"
      aria-label={`${words[is]}: ${said}`}
      onSubmit={(e) => {
        e.preventDefault();
        onSend(action);
      }}
    >
      <h3>{said}</h3>
      {defers && <p>{words.both}</p>}
      <div className="register-fields">
        {defers && (
          <label className="field">
            <span>{words.until}</span>
            <input name="until" type="date" value={until} onChange={(e) => setUntil(e.target.value)} />
          </label>
        )}
        {defers && (
          <label className="field">
            <span>{words.starts}</span>
            <input
              name="starts"
              inputMode="numeric"
              maxLength={4}
              autoComplete="off"
              value={count}
              onChange={(e) => setCount(e.target.value)}
            />
          </label>
        )}
        <label className="field">
          <span>{prompt}</span>
          <input
            name="reason"
            maxLength={280}
            autoComplete="off"
            value={typed}
            onChange={(e) => setTyped(e.target.value)}
          />
        </label>
      </div>
      <FormKeys
        send={words[is]}
        leave={words.leave}
        ready={reason !== "" && (!defers || ((until !== "" || counts) && (counts || count.trim() === "")))}
        onLeave={onLeave}
      />
    </form>
  );
}

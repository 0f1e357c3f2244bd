import { useState } from "react";
import type { DefectRow } from "../../net/aircraft.ts";
import { FormKeys } from "../../ui/FormKeys.tsx";
import { useDefectLifeWords } from "../../words/defectLife.ts";

interface Props {
  is: "defer" | "close";
  defect: DefectRow;
  /** Sends an action on the aircraft's record. */
  onSend(action: object): void;
  onLeave(): void;
}

/** Defers a defect to a day with a reason, or closes it with what was done. */
export function DefectAct({ is, defect: { no, words: said }, onSend, onLeave }: Props) {
  const words = useDefectLifeWords();
  const [until, setUntil] = useState("");
  const [typed, setTyped] = useState("");
  const reason = typed.trim();
  const defers = is === "defer";
  return (
    <form
      className="register-form"
      aria-label={`${defers ? words.defer : words.close}: ${said}`}
      onSubmit={(e) => {
        e.preventDefault();
        onSend(defers ? { type: "deferDefect", no, until, reason } : { type: "end", no, reason });
      }}
    >
      <h3>{said}</h3>
      <div className="register-fields">
        {defers && (
          <label className="field">
            <span>{words.until}</span>
            <input name="until" type="date" value={until} onChange={(e) => setUntil(e.target.value)} />
          </label>
        )}
        <label className="field">
          <span>{defers ? words.why : words.done}</span>
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
        send={defers ? words.defer : words.close}
        leave={words.leave}
        ready={reason !== "" && (!defers || until !== "")}
        onLeave={onLeave}
      />
    </form>
  );
}

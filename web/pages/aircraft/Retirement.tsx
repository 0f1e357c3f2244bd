import { useState } from "react";
import { aircraft } from "../../net/aircraft.ts";
import { FormKeys } from "../../ui/FormKeys.tsx";
import { useRegisterWords } from "../../words/register.ts";
import type { ActProps } from "./acts.ts";

/** Retires an aircraft with a reason, or takes a retired one back into service. */
export function Retirement({ row, onDone, onLeave, onTrouble }: ActProps) {
  const words = useRegisterWords();
  const [reason, setReason] = useState("");
  const act = row.retired ? words.takeBack : words.retire;
  return (
    <form
      className="register-form"
      aria-label={act}
      onSubmit={(e) => {
        e.preventDefault();
        aircraft.retire(row.id, row.revision, !row.retired, reason.trim()).then(onDone, onTrouble);
      }}
    >
      <h2>{act}</h2>
      <label className="field">
        <span>{row.retired ? words.takeBackWhy : words.retireWhy}</span>
        <input name="reason" value={reason} maxLength={200} onChange={(e) => setReason(e.target.value)} />
      </label>
      <FormKeys send={words.sure} leave={words.leave} ready={reason.trim() !== ""} onLeave={onLeave} />
    </form>
  );
}

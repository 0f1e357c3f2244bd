import { useState } from "react";
import { aircraft } from "../../net/aircraft.ts";
import { FormKeys } from "../../ui/FormKeys.tsx";
import { useRegisterWords } from "../../words/register.ts";
import { AircraftForm } from "./AircraftForm.tsx";
import type { ActProps } from "./acts.ts";
import { entryOf, textOfAircraft } from "./entry.ts";

/** Changes an aircraft's entry, but not its registration and type. */
export function ChangeAircraft({
  row,
  engines,
  onDone,
  onLeave,
  onTrouble,
}: ActProps & { engines: number[] }) {
  const words = useRegisterWords();
  const [text, setText] = useState(() => textOfAircraft(row, engines));
  const [reason, setReason] = useState("");
  const [busy, setBusy] = useState(false);
  const entry = entryOf(text, row);
  const save = () => {
    if (!entry) return;
    setBusy(true);
    const { typeId, typeVersion } = row;
    aircraft
      .change({ ...entry, typeId, typeVersion }, row.revision, reason.trim() === "" ? null : reason.trim())
      .then(onDone, onTrouble)
      .finally(() => setBusy(false));
  };
  return (
    <form
      className="register-form"
      aria-label={words.changeTitle(row.id)}
      onSubmit={(e) => {
        e.preventDefault();
        save();
      }}
    >
      <h2>{words.changeTitle(row.id)}</h2>
      <AircraftForm text={text} onText={setText} fresh={false} />
      <label className="field">
        <span>{words.reason}</span>
        <input name="reason" value={reason} maxLength={200} onChange={(e) => setReason(e.target.value)} />
      </label>
      <FormKeys
        send={busy ? words.saving : words.save}
        leave={words.leave}
        ready={entry !== null && !busy}
        onLeave={onLeave}
      />
    </form>
  );
}

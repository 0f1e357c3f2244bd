import { useState } from "react";
import { aircraft } from "../../net/aircraft.ts";
import { FormKeys } from "../../ui/FormKeys.tsx";
import { useRegisterWords } from "../../words/register.ts";
import type { ActProps } from "./acts.ts";
import { type FittedText, fittedText, hoursIn } from "./entry.ts";
import { Hours } from "./FittedFields.tsx";

/** Hours in tenths, as engine logs count them. */
const sum = (text: string, more: number): string =>
  String(Math.round(((hoursIn(text) ?? 0) + more) * 10) / 10);

/** Enters the hours of engines and propellers after a start. */
export function EnterHours({ row, engines, onDone, onLeave, onTrouble }: ActProps & { engines: number[] }) {
  const words = useRegisterWords();
  const [fitted, setFitted] = useState<FittedText[]>(() => engines.map((n) => fittedText(n, row.fitted)));
  const [flown, setFlown] = useState("");
  const [busy, setBusy] = useState(false);
  const more = hoursIn(flown);
  const addToAll = () => {
    if (!more) return;
    const added = (part: FittedText["engine"]) => ({ ...part, hours: sum(part.hours, more) });
    setFitted(fitted.map((f) => ({ ...f, engine: added(f.engine), propeller: added(f.propeller) })));
    setFlown("");
  };
  const good = fitted.flatMap((f) => {
    const [engine, propeller] = [hoursIn(f.engine.hours), hoursIn(f.propeller.hours)];
    return engine === undefined || propeller === undefined ? [] : [{ n: f.n, engine, propeller }];
  });
  const save = () => {
    setBusy(true);
    aircraft
      .hours(row.id, row.revision, good)
      .then(onDone, onTrouble)
      .finally(() => setBusy(false));
  };
  const before = (n: number, part: "engine" | "propeller") => {
    const known = row.fitted.find((f) => f.n === n)?.[part].hours ?? null;
    return words.was(known === null ? null : String(known));
  };
  const set = (i: number, next: FittedText) => setFitted(fitted.with(i, next));
  return (
    <form
      className="register-form"
      aria-label={words.hoursTitle(row.id)}
      onSubmit={(e) => {
        e.preventDefault();
        save();
      }}
    >
      <h2>{words.hoursTitle(row.id)}</h2>
      <p>{words.hoursLead}</p>
      <div className="hours-all">
        <Hours label={words.addToAll} value={flown} onText={setFlown} />
        <button type="button" className="answer" data-tone="plain" disabled={!more} onClick={addToAll}>
          {words.addThem}
        </button>
      </div>
      {fitted.map((f, i) => (
        <fieldset key={f.n} className="fitted-entry hours-entry">
          <legend>{words.engine(f.n)}</legend>
          <Hours
            label={words.engineHours}
            value={f.engine.hours}
            note={before(f.n, "engine")}
            onText={(text) => set(i, { ...f, engine: { ...f.engine, hours: text } })}
          />
          <Hours
            label={words.propellerHours}
            value={f.propeller.hours}
            note={before(f.n, "propeller")}
            onText={(text) => set(i, { ...f, propeller: { ...f.propeller, hours: text } })}
          />
        </fieldset>
      ))}
      <FormKeys
        send={busy ? words.saving : words.save}
        leave={words.leave}
        ready={good.length === fitted.length && !busy}
        onLeave={onLeave}
      />
    </form>
  );
}

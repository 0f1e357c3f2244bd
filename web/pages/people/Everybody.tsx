import "../../styles/house.css";
import "../../styles/register.css";
import { useEffect, useState } from "react";
import type { Lapse } from "../../../shared/house/lapses.ts";
import { type CurrencyRow, currencies, type Dates } from "../../net/currencies.ts";
import type { Me } from "../../net/keep.ts";
import { type Anybody, type PersonEntry, people } from "../../net/people.ts";
import { useCurrencyWords } from "../../words/currency.ts";
import { usePersonWords } from "../../words/person.ts";
import { useRehearsalWords } from "../../words/rehearsal.ts";
import { useWords } from "../../words/words.ts";
import { useCutOff } from "../CutOff.tsx";
import { useRenewed } from "../useRenewed.ts";
import { DatesForm } from "./DatesForm.tsx";
import { Lapses } from "./Lapses.tsx";
import { NewPinForm } from "./NewPinForm.tsx";
import { PersonForm } from "./PersonForm.tsx";
import { Training } from "./Training.tsx";

/** Fewest digits of a new PIN, until the server has sent this installation's setting. */
const SHORTEST = 6;

interface Props {
  me: Me;
  /** Counts the server's messages that something of the house changed. */
  changed: number;
  onTrouble(error: Error | null): void;
}

/** All people. The office adds and changes them, blocks one and admits one again, but nobody themselves. */
export function Everybody({ me, changed, onTrouble }: Props) {
  const words = usePersonWords();
  const [rows, setRows] = useState<Anybody[]>([]);
  const [doing, setDoing] = useState<Anybody | "new" | null>(null);
  const [entering, setEntering] = useState<{ is: "dates" | "pin"; person: Anybody } | null>(null);
  const [kinds, setKinds] = useState<CurrencyRow[]>([]);
  const [dates, setDates] = useState<Record<string, Dates>>({});
  const [lapses, setLapses] = useState<Record<string, Lapse[]>>({});
  const [least, setLeast] = useState(SHORTEST);
  const fetchAll = () => {
    currencies.kinds().then(setKinds, onTrouble);
    currencies.dates().then(setDates, onTrouble);
    currencies
      .lapses()
      .then((all) => setLapses(Object.fromEntries(all.map((p) => [p.person, p.lapses]))), onTrouble);
    people.everybody().then(setRows, onTrouble);
  };
  const read = () => {
    setDoing(null);
    setEntering(null);
    fetchAll();
  };
  useRenewed(changed, fetchAll);
  useEffect(() => {
    // If this request fails, the server still refuses a PIN that is too short.
    people.me().then(
      ({ pinLength }) => setLeast(pinLength),
      () => {},
    );
  }, []);
  const { cutOff, section } = useCutOff(onTrouble);
  const save = (entry: PersonEntry, fresh: { handle: string; pin: string }) => {
    onTrouble(null);
    if (doing === "new") people.add({ ...entry, ...fresh }).then(read, onTrouble);
    else if (doing) cutOff((sure) => people.change(doing.id, entry, sure), read);
  };
  return (
    <section className="own" aria-label={words.everybody}>
      <h2>{words.everybody}</h2>
      <p>{words.everybodyWhat}</p>
      {section}
      {entering?.is === "dates" && (
        <DatesForm
          key={entering.person.id}
          person={entering.person}
          kinds={kinds}
          dates={dates[entering.person.id] ?? {}}
          onSave={(days) => currencies.setDates(entering.person.id, days).then(read, onTrouble)}
          onLeave={() => setEntering(null)}
        />
      )}
      {entering?.is === "pin" && (
        <NewPinForm
          key={entering.person.id}
          person={entering.person}
          least={least}
          onSave={(next, pin) => {
            onTrouble(null);
            cutOff((sure) => people.setPin(entering.person.id, { next, pin, ...sure }), read);
          }}
          onLeave={() => setEntering(null)}
        />
      )}
      {doing === null ? (
        <button type="button" className="answer" data-tone="yes" onClick={() => setDoing("new")}>
          {words.add}
        </button>
      ) : (
        <PersonForm
          key={doing === "new" ? "" : doing.id}
          person={doing === "new" ? null : doing}
          own={doing !== "new" && doing.id === me.id}
          least={least}
          onSave={save}
          onLeave={() => setDoing(null)}
        />
      )}
      <ul className="device-rows">
        {rows.map((row) => (
          <Row
            key={row.id}
            row={row}
            own={row.id === me.id}
            lapses={lapses[row.id] ?? []}
            hasKinds={kinds.some((k) => !k.retired)}
            onEnter={(is) => setEntering({ is, person: row })}
            onChange={() => setDoing(row)}
            onTrouble={onTrouble}
            onSet={(active) => cutOff((sure) => people.setActive(row.id, active, sure), read)}
          />
        ))}
      </ul>
    </section>
  );
}

interface RowProps {
  row: Anybody;
  own: boolean;
  lapses: readonly Lapse[];
  /** True in a house that keeps currencies. */
  hasKinds: boolean;
  onEnter(is: "dates" | "pin"): void;
  onChange(): void;
  onTrouble(error: Error | null): void;
  onSet(active: boolean): void;
}

function Row({ row, own, lapses, hasKinds, onEnter, onChange, onTrouble, onSet }: RowProps) {
  const words = usePersonWords();
  const kept = useCurrencyWords();
  const { say } = useWords();
  const { training, hideTraining } = useRehearsalWords();
  const [asked, setAsked] = useState(false);
  const [shown, setShown] = useState(false);
  const posts = row.mayHold.length > 0 ? row.mayHold.map(say.post).join(", ") : say.post(null);
  return (
    <li aria-label={row.name}>
      <strong>{row.name}</strong>
      <span>
        {row.handle}: {posts}
      </span>
      <Lapses lapses={lapses} />
      {!row.active && <span>{words.stopped}</span>}
      <div className="person-keys">
        <button type="button" className="small-key" onClick={onChange}>
          {words.changePerson}
        </button>
        {!own && (
          <button type="button" className="small-key" aria-expanded={shown} onClick={() => setShown(!shown)}>
            {shown ? hideTraining : training}
          </button>
        )}
        {!own && hasKinds && (
          <button type="button" className="small-key" onClick={() => onEnter("dates")}>
            {kept.enterDates}
          </button>
        )}
        {!own && (
          <button type="button" className="small-key" onClick={() => onEnter("pin")}>
            {kept.newPin}
          </button>
        )}
        {!own && !row.active && (
          <button type="button" className="small-key" onClick={() => onSet(true)}>
            {words.letIn}
          </button>
        )}
        {!own && row.active && (
          <button
            type="button"
            className="small-key"
            onClick={() => (asked ? onSet(false) : setAsked(true))}
            onBlur={() => setAsked(false)}
          >
            {asked ? words.stopSure : words.stop}
          </button>
        )}
      </div>
      {shown && <Training person={row} onTrouble={onTrouble} />}
    </li>
  );
}

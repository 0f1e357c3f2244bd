import "../../styles/house.css";
import "../../styles/register.css";
import { useCallback, useEffect, useState } from "react";
import { dayWords } from "../../../shared/words/dates.ts";
import type { Me } from "../../net/keep.ts";
import { type Anybody, type PersonEntry, people } from "../../net/people.ts";
import { usePersonWords } from "../../words/person.ts";
import { useWords } from "../../words/words.ts";
import { useCutOff } from "../CutOff.tsx";
import { useRenewed } from "../useRenewed.ts";
import { PersonForm } from "./PersonForm.tsx";

/** Fewest digits of a new PIN, until the server has sent this installation's setting. */
const SHORTEST = 6;
/** Days before its end at which a currency is shown as ending. */
const SOON = 30;

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
  const [least, setLeast] = useState(SHORTEST);
  // biome-ignore lint/correctness/useExhaustiveDependencies: fetch once, and after each key
  const read = useCallback(() => {
    setDoing(null);
    people.everybody().then(setRows, onTrouble);
  }, []);
  useRenewed(changed, () => void people.everybody().then(setRows, onTrouble));
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
            onChange={() => setDoing(row)}
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
  onChange(): void;
  onSet(active: boolean): void;
}

function Row({ row, own, onChange, onSet }: RowProps) {
  const words = usePersonWords();
  const { say } = useWords();
  const [asked, setAsked] = useState(false);
  const posts = row.mayHold.length > 0 ? row.mayHold.map(say.post).join(", ") : say.post(null);
  const { currentUntil, daysLeft } = row;
  const ending = daysLeft !== null && daysLeft <= SOON;
  return (
    <li aria-label={row.name}>
      <strong>{row.name}</strong>
      <span>
        {row.handle}: {posts}
      </span>
      {currentUntil !== null && daysLeft !== null && (
        <span className={ending ? "person-ending" : ""}>
          {words.current(dayWords(currentUntil - 1, say.language), daysLeft, ending)}
        </span>
      )}
      {!row.active && <span>{words.stopped}</span>}
      <div className="person-keys">
        <button type="button" className="small-key" onClick={onChange}>
          {words.changePerson}
        </button>
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
    </li>
  );
}

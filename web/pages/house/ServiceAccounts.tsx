import { useEffect, useState } from "react";
import type { Scope } from "../../../shared/house/serviceAccount.ts";
import { type AccountRow, accounts } from "../../net/accounts.ts";
import { useAccountWords } from "../../words/accounts.ts";
import type { AccountWords } from "../../words/en/accounts.ts";
import { useWords } from "../../words/words.ts";
import { AccountForm } from "./AccountForm.tsx";

/** The accounts of other systems: makes them, shows a new token once, and ends them. */
export function ServiceAccounts({ onTrouble }: { onTrouble(error: Error | null): void }) {
  const words = useAccountWords();
  const { language } = useWords().say;
  const [rows, setRows] = useState<AccountRow[] | null>(null);
  const [making, setMaking] = useState(false);
  const [made, setMade] = useState<{ name: string; token: string; calendar: boolean } | null>(null);
  const read = () => void accounts.list().then(setRows, onTrouble);
  // biome-ignore lint/correctness/useExhaustiveDependencies: fetch once
  useEffect(read, []);
  const make = (entry: { name: string; until: string; scopes: Scope[] }) => {
    onTrouble(null);
    accounts.make(entry).then(({ token }) => {
      setMaking(false);
      setMade({ name: entry.name, token, calendar: entry.scopes.some(({ is }) => is === "dueCalendar") });
      read();
    }, onTrouble);
  };
  const revoke = (id: string) => void accounts.revoke(id).then(read, onTrouble);
  return (
    <section className="own" aria-label={words.title}>
      <h2>{words.title}</h2>
      <p>{words.lead}</p>
      {rows?.length === 0 && <p className="empty">{words.none}</p>}
      <ul className="device-rows">
        {rows?.map((row) => (
          <Row key={row.id} row={row} onRevoke={() => revoke(row.id)} />
        ))}
      </ul>
      {made && (
        <section aria-label={words.tokenOf(made.name)}>
          <p>{words.once}</p>
          <code className="account-token">{made.token}</code>
          {made.calendar && (
            <>
              <p>{words.calendarAddress}</p>
              <code className="account-token">{calendarAddress(made.token, language)}</code>
            </>
          )}
          <button type="button" className="small-key" onClick={() => setMade(null)}>
            {words.done}
          </button>
        </section>
      )}
      {making && <AccountForm onMake={make} onLeave={() => setMaking(false)} />}
      {!making && !made && (
        <button type="button" className="answer" data-tone="plain" onClick={() => setMaking(true)}>
          {words.add}
        </button>
      )}
    </section>
  );
}

/** Returns the address at which a calendar program finds the dues. */
const calendarAddress = (token: string, language: string): string =>
  `${location.origin}/api/due-calendar/${token}?language=${language}`;

function Row({ row, onRevoke }: { row: AccountRow; onRevoke(): void }) {
  const words = useAccountWords();
  const [asked, setAsked] = useState(false);
  return (
    <li aria-label={row.name}>
      <strong>{row.name}</strong>
      <span>{row.scopes.map((scope) => scopeWords(scope, words)).join("; ")}</span>
      <code>{row.id}</code>
      <span>{row.revoked ? words.revoked : words.endsOn(row.until)}</span>
      {!row.revoked && (
        <button
          type="button"
          className="small-key"
          onClick={() => (asked ? onRevoke() : setAsked(true))}
          onBlur={() => setAsked(false)}
        >
          {asked ? words.revokeSure : words.revoke}
        </button>
      )}
    </li>
  );
}

function scopeWords(scope: Scope, words: AccountWords): string {
  switch (scope.is) {
    case "readRecords":
    case "readLive":
    case "dueCalendar":
      return words.scopes[scope.is];
    case "pushReadings":
      return `${words.scopes[scope.is]}: ${scope.aircraft}`;
    case "pushWeather":
      return `${words.scopes[scope.is]}: ${scope.place}`;
  }
}

import { useState } from "react";
import type { Scope, ScopeKind } from "../../../shared/house/serviceAccount.ts";
import { Choice } from "../../ui/Choice.tsx";
import { FormKeys } from "../../ui/FormKeys.tsx";
import { useAccountWords } from "../../words/accounts.ts";

interface Props {
  onMake(entry: { name: string; until: string; scopes: Scope[] }): void;
  onLeave(): void;
}

const KINDS = ["readLive", "readRecords", "dueCalendar", "pushReadings", "pushWeather"] as const;

function scopeOf(is: ScopeKind, of: string): Scope {
  switch (is) {
    case "readLive":
    case "readRecords":
    case "dueCalendar":
      return { is };
    case "pushReadings":
      return { is, aircraft: of };
    case "pushWeather":
      return { is, place: of };
  }
}

/** Entry of a service account: its name, its last day, and the one thing that it may do. */
export function AccountForm({ onMake, onLeave }: Props) {
  const words = useAccountWords();
  const [name, setName] = useState("");
  const [until, setUntil] = useState("");
  const [is, setIs] = useState<ScopeKind>("readLive");
  const [of, setOf] = useState("");
  const needs = is === "pushReadings" || is === "pushWeather" ? words.of[is] : null;
  return (
    <form
      className="register-form"
      aria-label={words.add}
      onSubmit={(e) => {
        e.preventDefault();
        onMake({ name: name.trim(), until, scopes: [scopeOf(is, of.trim())] });
      }}
    >
      <div className="register-fields">
        <label className="field">
          <span>{words.name}</span>
          <input
            name="account"
            value={name}
            maxLength={60}
            autoComplete="off"
            onChange={(e) => setName(e.target.value)}
          />
        </label>
        <label className="field">
          <span>{words.until}</span>
          <input name="until" type="date" value={until} onChange={(e) => setUntil(e.target.value)} />
        </label>
      </div>
      <div className="house-rule">
        <h3>{words.scope}</h3>
        <Choice<ScopeKind>
          label={words.scope}
          chosen={is}
          options={KINDS.map((kind) => ({ is: kind, words: words.scopes[kind] }))}
          className="option-keys"
          classNameOfKeys="answer"
          onChoose={setIs}
        />
      </div>
      {needs !== null && (
        <label className="field">
          <span>{needs}</span>
          <input
            name="of"
            value={of}
            maxLength={80}
            autoComplete="off"
            onChange={(e) => setOf(e.target.value)}
          />
        </label>
      )}
      <FormKeys
        send={words.make}
        leave={words.leave}
        ready={name.trim() !== "" && until !== "" && (needs === null || of.trim() !== "")}
        onLeave={onLeave}
      />
    </form>
  );
}

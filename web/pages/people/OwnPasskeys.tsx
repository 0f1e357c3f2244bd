import { useCallback, useEffect, useState } from "react";
import { dayAndMinute } from "../../../shared/words/dates.ts";
import { type Passkey, passkeys } from "../../net/passkeys.ts";
import { PinEntry } from "../../ui/PinEntry.tsx";
import { usePersonWords } from "../../words/person.ts";
import { useWords } from "../../words/words.ts";

/** This person's passkeys: made with their PIN where the device supports them, removed one by one. */
export function OwnPasskeys({ onTrouble }: { onTrouble(error: Error): void }) {
  const words = usePersonWords();
  const { language } = useWords().say;
  const [rows, setRows] = useState<Passkey[]>([]);
  const [here, setHere] = useState(false);
  const [making, setMaking] = useState(false);
  // biome-ignore lint/correctness/useExhaustiveDependencies: fetch once, and after each key
  const read = useCallback(() => void passkeys.list().then(setRows, onTrouble), []);
  useEffect(() => {
    read();
    void passkeys.here().then(setHere);
  }, [read]);
  const make = (pin: string) => {
    setMaking(false);
    const failed = (error: Error) =>
      onTrouble(error instanceof DOMException ? new Error(words.noPasskey) : error);
    void passkeys.make(pin).then(read, failed);
  };
  return (
    <section className="own" aria-label={words.passkeys}>
      <h2>{words.passkeys}</h2>
      <p>{here ? words.passkeysWhat : words.passkeysNotHere}</p>
      <ul className="device-rows">
        {rows.map((row) => (
          <li key={row.id} aria-label={row.deviceName}>
            <strong>{row.deviceName}</strong>
            <span>{words.passkeyMade(dayAndMinute(row.createdAt, language))}</span>
            <button
              type="button"
              className="small-key"
              onClick={() => void passkeys.remove(row.id).then(read, onTrouble)}
            >
              {words.takeBack}
            </button>
          </li>
        ))}
      </ul>
      {here && !making && (
        <button type="button" className="answer" data-tone="plain" onClick={() => setMaking(true)}>
          {words.makePasskey}
        </button>
      )}
      {making && <PinEntry word={words.makePasskey} disabled={false} onEnter={make} />}
    </section>
  );
}

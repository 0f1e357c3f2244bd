import { useCallback, useEffect, useState } from "react";
import { dayAndMinute } from "../../../shared/words/dates.ts";
import { type DeviceRow, devices } from "../../net/devices.ts";
import { useDeviceWords } from "../../words/devices.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";
import { NewDevice } from "./NewDevice.tsx";

/** The office's list of devices: letting one in, showing one out. */
export function DevicesPage() {
  const words = useDeviceWords();
  const { ramp } = useWords().text;
  const [rows, setRows] = useState<DeviceRow[] | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const failed = useCallback((error: Error) => setTrouble(error.message), []);
  const read = useCallback(() => void devices.list().then(setRows, failed), [failed]);
  useEffect(read, [read]);
  const revoke = (id: string) => void devices.revoke(id).then(read, failed);
  return (
    <main className="page">
      <header className="page-head page-head-row">
        <div>
          <h1>{words.title}</h1>
          <p>{words.lead}</p>
        </div>
        <nav className="head-keys">
          <button type="button" className="answer" data-tone="plain" onClick={read}>
            {words.again}
          </button>
          <button type="button" className="answer" data-tone="plain" onClick={() => go("/")}>
            {ramp.back}
          </button>
        </nav>
      </header>
      {trouble && (
        <p className="trouble" role="alert">
          {trouble}
        </p>
      )}
      <NewDevice onTrouble={failed} />
      {rows?.length === 0 && <p className="empty">{words.none}</p>}
      {rows !== null && rows.length > 0 && (
        <ul className="device-rows">
          {rows.map((row) => (
            <Row key={row.id} row={row} onRevoke={() => revoke(row.id)} />
          ))}
        </ul>
      )}
    </main>
  );
}

function Row({ row, onRevoke }: { row: DeviceRow; onRevoke(): void }) {
  const words = useDeviceWords();
  const { language } = useWords().say;
  const [asked, setAsked] = useState(false);
  const { name, enrolledBy, enrolledAt, revokedBy, revokedAt } = row;
  return (
    <li aria-label={name}>
      <strong>{name}</strong>
      <span>{words.enrolledAt(dayAndMinute(enrolledAt, language), enrolledBy)}</span>
      {revokedAt !== null && (
        <span>{words.revokedAt(dayAndMinute(revokedAt, language), revokedBy ?? "")}</span>
      )}
      {revokedAt === null && (
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

import { useCallback, useEffect, useState } from "react";
import { dayAndMinute } from "../../../shared/words/dates.ts";
import { type DeviceRow, devices } from "../../net/devices.ts";
import { useDeviceWords } from "../../words/devices.ts";
import { useWords } from "../../words/words.ts";
import { useCutOff } from "../CutOff.tsx";
import { SidePage } from "../SidePage.tsx";
import { NewDevice } from "./NewDevice.tsx";

/** The office's list of devices: enrols and revokes them. */
export function DevicesPage() {
  const words = useDeviceWords();
  const [rows, setRows] = useState<DeviceRow[] | null>(null);
  const [trouble, setTrouble] = useState<Error | null>(null);
  const read = useCallback(() => void devices.list().then(setRows, setTrouble), []);
  useEffect(read, [read]);
  const { cutOff, section } = useCutOff(setTrouble);
  const revoke = (id: string) => cutOff((sure) => devices.revoke(id, sure), read);
  return (
    <SidePage
      title={words.title}
      lead={words.lead}
      trouble={trouble}
      keys={
        <button type="button" className="answer" data-tone="plain" onClick={read}>
          {words.again}
        </button>
      }
    >
      {section}
      <NewDevice onTrouble={setTrouble} />
      {rows?.length === 0 && <p className="empty">{words.none}</p>}
      {rows !== null && rows.length > 0 && (
        <ul className="device-rows">
          {rows.map((row) => (
            <Row key={row.id} row={row} onRevoke={() => revoke(row.id)} />
          ))}
        </ul>
      )}
    </SidePage>
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

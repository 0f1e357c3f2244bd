import { useState } from "react";
import { aircraft, type RegisteredAircraft } from "../../net/aircraft.ts";
import type { Me } from "../../net/keep.ts";
import { useRegisterWords } from "../../words/register.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";
import { SidePage } from "../SidePage.tsx";
import { useRenewed } from "../useRenewed.ts";
import { Bar } from "./Bar.tsx";

/** Every aircraft of the house: first those in service, then the retired ones. */
export function AircraftList({ me, changed }: { me: Me; changed: number }) {
  const words = useRegisterWords();
  const { ramp } = useWords().text;
  const [rows, setRows] = useState<RegisteredAircraft[] | null>(null);
  const [trouble, setTrouble] = useState<Error | null>(null);
  useRenewed(changed, () => void aircraft.list().then(setRows, setTrouble));
  const may = me.mayHold.includes("supervisor");
  const retired = rows?.filter((a) => a.retired) ?? [];
  return (
    <SidePage
      title={words.title}
      lead={words.lead}
      trouble={trouble}
      keys={
        may && (
          <button type="button" className="answer" data-tone="yes" onClick={() => go("/aircraft/new")}>
            {words.add}
          </button>
        )
      }
    >
      {rows === null && trouble === null && <p className="empty">{ramp.asking}</p>}
      {rows?.length === 0 && <p className="empty">{may ? words.noneHere : words.none}</p>}
      <Rows rows={rows?.filter((a) => !a.retired) ?? []} />
      {retired.length > 0 && (
        <section className="own" aria-label={words.retiredOnes}>
          <h2>{words.retiredOnes}</h2>
          <Rows rows={retired} />
        </section>
      )}
    </SidePage>
  );
}

function Rows({ rows }: { rows: readonly RegisteredAircraft[] }) {
  const words = useRegisterWords();
  if (rows.length === 0) return null;
  return (
    <ul className="register-rows">
      {rows.map((row) => (
        <li key={row.id}>
          <button type="button" className="register-row" onClick={() => go(`/aircraft/${row.id}`)}>
            <strong className="register-id">{row.id}</strong>
            <span className="register-what">
              <strong>{row.name}</strong>
              <span>{words.onVersion(row.typeName, row.typeVersion)}</span>
              {row.stand !== null && <span>{row.stand}</span>}
            </span>
            <Bar bar={row.bar} />
          </button>
        </li>
      ))}
    </ul>
  );
}

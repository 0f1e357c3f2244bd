import { useCallback, useState } from "react";
import type { AircraftType } from "../../../shared/types/schema.ts";
import { aircraft, type RegisterChange, type RegisteredAircraft } from "../../net/aircraft.ts";
import { api } from "../../net/app.ts";
import type { Me } from "../../net/keep.ts";
import { useRegisterWords } from "../../words/register.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";
import { SidePage } from "../SidePage.tsx";
import { useRenewed } from "../useRenewed.ts";
import { AircraftKeys } from "./AircraftKeys.tsx";
import type { Doing } from "./acts.ts";
import { Bar } from "./Bar.tsx";
import { ChangeAircraft } from "./ChangeAircraft.tsx";
import { Channels } from "./Channels.tsx";
import { Defects } from "./Defects.tsx";
import { EnterHours } from "./EnterHours.tsx";
import { FittedTable } from "./FittedTable.tsx";
import { History } from "./History.tsx";
import { MoveType } from "./MoveType.tsx";
import { Retirement } from "./Retirement.tsx";

/** One aircraft: what it is, what is fitted, whether it can be planned, and every change. */
export function AircraftPage({ id, me, changed }: { id: string; me: Me; changed: number }) {
  const words = useRegisterWords();
  const { ramp } = useWords().text;
  const [row, setRow] = useState<RegisteredAircraft | null>(null);
  const [type, setType] = useState<AircraftType | null>(null);
  const [changes, setChanges] = useState<RegisterChange[]>([]);
  const [trouble, setTrouble] = useState<Error | null>(null);
  const [doing, setDoing] = useState<Doing>(null);
  const read = useCallback(() => {
    setDoing(null);
    setTrouble(null);
    aircraft.one(id).then((one) => {
      setRow(one);
      // The drawing and the engines' places are of the version it is on; without it the page lacks only these.
      api.type(one.typeId, one.typeVersion).then(setType, () => setType(null));
    }, setTrouble);
    aircraft.changes(id).then(setChanges, setTrouble);
  }, [id]);
  // While somebody enters something the page stays as it was read: their entry names that revision.
  useRenewed(changed, () => doing === null && read());
  const supervisor = me.mayHold.includes("supervisor");
  if (!row)
    return (
      <SidePage title={id} lead="" trouble={trouble}>
        {trouble === null && <p className="empty">{ramp.asking}</p>}
      </SidePage>
    );
  const engines = type?.engines.map((e) => e.n) ?? row.fitted.map((f) => f.n);
  const acts = { row, onDone: read, onLeave: () => setDoing(null), onTrouble: setTrouble };
  return (
    <SidePage
      title={row.id}
      lead={row.name}
      trouble={trouble}
      keys={
        <>
          <button
            type="button"
            className="answer"
            data-tone="plain"
            onClick={() => go(`/aircraft/${encodeURIComponent(id)}/history`)}
          >
            {words.starts}
          </button>
          <button type="button" className="answer" data-tone="plain" onClick={() => go("/aircraft")}>
            {words.back}
          </button>
        </>
      }
    >
      {doing === "change" && <ChangeAircraft {...acts} engines={engines} />}
      {doing === "hours" && <EnterHours {...acts} engines={engines} />}
      {doing === "retire" && <Retirement {...acts} />}
      {doing === null && (
        <>
          <section className="register-standing" aria-label={words.type}>
            <Bar bar={row.bar} />
            <p>{words.onVersion(row.typeName, row.typeVersion)}</p>
            <p>{row.stand ?? words.noStand}</p>
            {row.notes !== null && <p>{row.notes}</p>}
          </section>
          {row.bar !== null && <MoveType {...acts} bar={row.bar} may={supervisor} />}
          <FittedTable row={row} type={type} engines={engines} />
          <Channels aircraft={row.id} type={type} may={supervisor} changed={changed} onTrouble={setTrouble} />
          <AircraftKeys row={row} me={me} onDo={setDoing} />
          <Defects
            aircraft={row.id}
            engines={engines}
            supervisor={supervisor}
            changed={changed}
            onTrouble={setTrouble}
          />
          <History changes={changes} />
        </>
      )}
    </SidePage>
  );
}

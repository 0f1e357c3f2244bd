import { useState } from "react";
import { outcomesOf } from "../../../shared/words/outcomes.ts";
import { type DefectRow, aircraft as register } from "../../net/aircraft.ts";
import { reportAt } from "../../net/aircraftReport.ts";
import { WriteDefect } from "../../posts/shared/WriteDefect.tsx";
import { useDefectLifeWords } from "../../words/defectLife.ts";
import { useWords } from "../../words/words.ts";
import { useRenewed } from "../useRenewed.ts";
import { DefectAct, type DefectDoing } from "./DefectAct.tsx";
import { DefectRows } from "./DefectRows.tsx";

interface Props {
  aircraft: string;
  engines: readonly number[];
  /** True for those who defer, close and inspect. */
  supervisor: boolean;
  /** Counts the server's messages that something changed. */
  changed: number;
  onTrouble(error: Error | null): void;
}

type Doing = { is: "write" } | { is: DefectDoing; defect: DefectRow };

/** The aircraft's defects: those that are open, with keys to write, defer, close and inspect, and those that are closed. */
export function Defects({ aircraft, engines, supervisor, changed, onTrouble }: Props) {
  const words = useDefectLifeWords();
  const { say } = useWords();
  const [all, setAll] = useState<DefectRow[] | null>(null);
  const [doing, setDoing] = useState<Doing | null>(null);
  const read = () => void register.defects(aircraft).then(setAll, onTrouble);
  useRenewed(changed, read);
  const send = async (action: object) => {
    onTrouble(null);
    try {
      const answer = await reportAt(aircraft, action);
      if (answer.status === "refused") throw new Error(outcomesOf(say).refusal(answer.refusal));
      setDoing(null);
      read();
    } catch (error) {
      onTrouble(error as Error);
    }
  };
  const open = all?.filter((d) => d.closed === null) ?? [];
  const closed = all?.filter((d) => d.closed !== null) ?? [];
  const rows = { aircraft, supervisor, onPictures: read, onTrouble };
  return (
    <section className="own" aria-label={words.title}>
      <h2>{words.title}</h2>
      {all !== null && open.length === 0 && <p className="empty">{words.none}</p>}
      <DefectRows
        {...rows}
        defects={open}
        onDo={supervisor && doing === null ? (is, defect) => setDoing({ is, defect }) : null}
      />
      {doing?.is === "write" && (
        <WriteDefect
          engines={engines}
          fresh
          onWrite={(defect) => void send({ type: "writeDefect", ...defect })}
          onDone={() => setDoing(null)}
        />
      )}
      {doing !== null && doing.is !== "write" && (
        <DefectAct
          key={`${doing.is} ${doing.defect.no}`}
          is={doing.is}
          defect={doing.defect}
          onSend={(action) => void send(action)}
          onLeave={() => setDoing(null)}
        />
      )}
      {doing === null && (
        <button type="button" className="answer" data-tone="plain" onClick={() => setDoing({ is: "write" })}>
          {words.write}
        </button>
      )}
      {closed.length > 0 && (
        <details className="defects-closed">
          <summary className="small-key">{words.closedOnes(closed.length)}</summary>
          <DefectRows {...rows} defects={closed} onDo={null} />
        </details>
      )}
    </section>
  );
}

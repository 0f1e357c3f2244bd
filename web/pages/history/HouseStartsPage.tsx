import "../../styles/register.css";
import "../../styles/history.css";
import { useEffect, useState } from "react";
import { dayWords } from "../../../shared/words/dates.ts";
import { type HouseHistory, histories } from "../../net/history.ts";
import { useHouseStartsWords } from "../../words/houseStarts.ts";
import { useWords } from "../../words/words.ts";
import { SidePage } from "../SidePage.tsx";
import { AlertTables } from "./AlertTables.tsx";
import { DelayTables } from "./DelayTables.tsx";
import { Lives } from "./Lives.tsx";
import { SaveKey } from "./SaveKey.tsx";

/** Weeks that can be chosen. */
const SPANS = [13, 26, 52, 104] as const;

/** The starts of the house: a table for each question. */
export function HouseStartsPage() {
  const words = useHouseStartsWords();
  const { text, say } = useWords();
  const [weeks, setWeeks] = useState<number>(52);
  const [told, setTold] = useState<HouseHistory | null>(null);
  const [trouble, setTrouble] = useState<Error | null>(null);
  useEffect(() => {
    let wanted = true;
    const known = (house: HouseHistory) => {
      if (!wanted) return;
      setTold(house);
      setTrouble(null);
    };
    histories.house(weeks).then(known, (error: Error) => wanted && setTrouble(error));
    return () => {
      wanted = false;
    };
  }, [weeks]);
  return (
    <SidePage
      title={words.title}
      lead={told ? words.lead(told.starts, told.sessions, dayWords(told.from, say.language)) : ""}
      trouble={trouble}
      keys={told && <SaveKey of={{ weeks }} onTrouble={setTrouble} />}
    >
      <div className="history-body">
        <fieldset className="bar-spans">
          <legend>{words.span}</legend>
          {SPANS.map((n) => (
            <button
              key={n}
              type="button"
              className="small-key"
              aria-pressed={n === weeks}
              onClick={() => setWeeks(n)}
            >
              {words.weeks(n)}
            </button>
          ))}
        </fieldset>
        {told === null && trouble === null && <p className="empty">{text.ramp.asking}</p>}
        {told && (
          <>
            <Bounds told={told} />
            <DelayTables told={told} />
            <AlertTables told={told} />
            <Lives onTrouble={setTrouble} />
          </>
        )}
      </div>
    </SidePage>
  );
}

/** Says what is counted, and what is not. */
function Bounds({ told: { unstarted, few, least, more, most } }: { told: HouseHistory }) {
  const words = useHouseStartsWords();
  return (
    <div>
      {few && (
        <p>
          <strong>{words.few(least)}</strong>
        </p>
      )}
      {more && <p>{words.more(most)}</p>}
      {unstarted > 0 && <p>{words.unstarted(unstarted)}</p>}
      <p className="history-quiet">{words.what}</p>
    </div>
  );
}

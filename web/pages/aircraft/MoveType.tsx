import { useState } from "react";
import type { PlanBar } from "../../../shared/house/planBar.ts";
import { aircraft } from "../../net/aircraft.ts";
import { useRegisterWords } from "../../words/register.ts";
import { go } from "../route.ts";
import type { ActProps } from "./acts.ts";

/** Says what ends the bar. A supervisor compares the type's versions, then moves the aircraft to the approved one. */
export function MoveType({ row, bar, may, onDone, onTrouble }: ActProps & { bar: PlanBar; may: boolean }) {
  const words = useRegisterWords();
  const [asked, setAsked] = useState(false);
  const newest = "newest" in bar ? bar.newest : null;
  const move = () => {
    if (newest === null) return;
    const { id, name, typeId, fitted, stand, notes } = row;
    aircraft
      .change({ id, name, typeId, typeVersion: newest, fitted, stand, notes }, row.revision, null)
      .then(onDone, onTrouble);
  };
  return (
    <div className="register-notice" role="status">
      <p>{words.cure(bar)}</p>
      {newest !== null && may && (
        <div className="head-keys register-keys">
          <button
            type="button"
            className="answer"
            data-tone="plain"
            onClick={() => go(`/types/${row.typeId}/${newest}/since/${row.typeVersion}`)}
          >
            {words.whatChanges}
          </button>
          <button
            type="button"
            className="answer"
            data-tone="yes"
            onClick={() => (asked ? move() : setAsked(true))}
            onBlur={() => setAsked(false)}
          >
            {asked ? words.moveSure : words.moveTo(newest)}
          </button>
        </div>
      )}
    </div>
  );
}

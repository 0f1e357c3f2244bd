import { useEffect, useState } from "react";
import type { HistoryNote } from "../../shared/history/notes.ts";
import { histories } from "./history.ts";

/** Returns what an aircraft's engines do otherwise than before; none until it is fetched, and none when it cannot be. */
export function useHistoryNotes(aircraft: string): readonly HistoryNote[] {
  const [notes, setNotes] = useState<readonly HistoryNote[]>([]);
  useEffect(() => {
    let here = true;
    const none = () => here && setNotes([]);
    histories.notes(aircraft).then((found) => here && setNotes(found), none);
    return () => {
      here = false;
    };
  }, [aircraft]);
  return notes;
}

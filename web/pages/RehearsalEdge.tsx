import "../styles/rehearsal.css";
import { useEffect } from "react";
import { isRehearsalId } from "../../shared/protocol/rehearsal.ts";
import { useWords } from "../words/words.ts";

/** A striped edge around the page of a rehearsal, with the word at its head and in the window's title. */
export function RehearsalEdge({ session }: { session: string }) {
  const { rehearsal } = useWords().text.title;
  const shown = isRehearsalId(session);
  useEffect(() => {
    if (!shown) return;
    const before = document.title;
    document.title = `${rehearsal} · ${before}`;
    return () => {
      document.title = before;
    };
  }, [shown, rehearsal]);
  if (!shown) return null;
  return (
    <div className="rehearsal-edge" role="note">
      <strong>{rehearsal}</strong>
    </div>
  );
}

import "../../styles/dues.css";
import "../../styles/register.css";
import { useState } from "react";
import type { Due } from "../../../shared/dues/dues.ts";
import { dueLine, duesWords } from "../../../shared/words/dues.ts";
import { dues } from "../../net/dues.ts";
import type { Me } from "../../net/keep.ts";
import { saveFile } from "../../net/saveFile.ts";
import { useDuesWords } from "../../words/dues.ts";
import { useWords } from "../../words/words.ts";
import { PaperKey } from "../PaperKey.tsx";
import { SidePage } from "../SidePage.tsx";
import { useRenewed } from "../useRenewed.ts";
import { Inspections } from "./Inspections.tsx";

/** Lists what is over and what is due soon, one line each; and the inspections of the house's aircraft. */
export function DuesPage({ me, changed }: { me: Me; changed: number }) {
  const words = useDuesWords();
  const { text } = useWords();
  const [all, setAll] = useState<Due[] | null>(null);
  const [trouble, setTrouble] = useState<Error | null>(null);
  const read = () => void dues.list().then(setAll, setTrouble);
  useRenewed(changed, read);
  const calendar = () => dues.calendar().then((bytes) => saveFile(bytes, "chockside-dues.ics"), setTrouble);
  const now = all?.filter((d) => d.is !== "later") ?? [];
  const later = all?.filter((d) => d.is === "later") ?? [];
  return (
    <SidePage
      title={words.title}
      lead={words.lead}
      trouble={trouble}
      keys={
        <>
          <PaperKey path="/api/dues.pdf" word={words.paper} />
          <button type="button" className="answer" data-tone="plain" onClick={() => void calendar()}>
            {words.calendar}
          </button>
        </>
      }
    >
      {all === null && trouble === null && <p className="empty">{text.ramp.asking}</p>}
      {all !== null && now.length === 0 && <p className="empty">{words.none}</p>}
      <Lines dues={now} />
      {later.length > 0 && (
        <details className="dues-later">
          <summary className="small-key">{words.later(later.length)}</summary>
          <Lines dues={later} />
        </details>
      )}
      <Inspections may={me.mayHold.includes("supervisor")} onChanged={read} onTrouble={setTrouble} />
    </SidePage>
  );
}

function Lines({ dues: all }: { dues: readonly Due[] }) {
  const { say } = useWords();
  const words = duesWords(say.language);
  if (all.length === 0) return null;
  return (
    <ul className="due-rows">
      {all.map((due) => {
        const { whom, what, when, source } = dueLine(due, say);
        return (
          <li key={due.key} className="due-row" data-is={due.is}>
            <span className="due-is">{words.is[due.is]}</span>
            <strong className="due-whom">{whom}</strong>
            <span>{what}</span>
            <strong>{when}</strong>
            {source !== null && <span className="due-source">{source}</span>}
          </li>
        );
      })}
    </ul>
  );
}

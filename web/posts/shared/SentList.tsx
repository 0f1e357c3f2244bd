import { useState } from "react";
import type { AnswerKey } from "../../ui/askView.ts";
import { Sent } from "../../ui/Sent.tsx";
import { useUnits } from "../../ui/units.ts";
import type { Panel } from "./model.ts";
import { NeedSheet } from "./NeedSheet.tsx";
import { sentRows } from "./sentRows.ts";

/** The messages of this person, with the entry that corrects the last figure. */
export function SentList({ panel, numbers }: { panel: Panel; numbers: readonly number[] }) {
  const units = useUnits();
  const [correcting, setCorrecting] = useState<AnswerKey | null>(null);
  const close = () => setCorrecting(null);
  return (
    <>
      <Sent
        rows={sentRows(panel.state, panel.sent, units, panel.words, panel.now)}
        fresh={panel.fresh}
        onAnew={panel.sendAnew}
        onDrop={panel.drop}
        onCorrect={setCorrecting}
      />
      {correcting && <NeedSheet panel={panel} answer={correcting} numbers={numbers} onClose={close} />}
    </>
  );
}

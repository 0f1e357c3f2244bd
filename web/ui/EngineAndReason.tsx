import { useState } from "react";
import { useWords } from "../words/words.ts";
import { EngineKeys } from "./EngineKeys.tsx";
import type { NeedProps } from "./needProps.ts";
import { OverridePin } from "./OverridePin.tsx";
import { ReasonEntry } from "./ReasonEntry.tsx";

/** Entry of an engine, a reason and the person's PIN, one after another: what setting a condition aside needs. */
export function EngineAndReason(p: Omit<NeedProps, "answer" | "now"> & { word: string }) {
  const { entry } = useWords().text;
  const [engine, setEngine] = useState<number | null>(null);
  const [reason, setReason] = useState<string | null>(null);
  if (engine === null) {
    return (
      <EngineKeys
        numbers={p.numbers}
        prompt={entry.engine}
        disabled={p.blocked}
        onPick={setEngine}
        onBack={p.onBack}
      />
    );
  }
  if (reason !== null)
    return (
      <OverridePin
        word={p.word}
        blocked={p.blocked}
        confirm={p.confirm}
        onConfirmed={(confirmed) => p.onGive({ engine, reason, confirmed })}
        onBack={() => setReason(null)}
      />
    );
  return (
    <ReasonEntry
      prompt={entry.ownReason(engine)}
      usual={[]}
      word={p.word}
      disabled={p.blocked}
      onEnter={setReason}
      onBack={p.onBack}
    />
  );
}

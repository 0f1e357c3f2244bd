import { useEffect, useState } from "react";
import { difference } from "../../../shared/types/difference.ts";
import type { AircraftType } from "../../../shared/types/schema.ts";
import { types } from "../../net/types.ts";
import { useTypeWords } from "../../words/types.ts";
import { DifferenceTable } from "./DifferencePage.tsx";

interface Props {
  type: AircraftType;
  /** Number of the approved version before it. */
  since: number;
  onTrouble(error: Error): void;
}

/** The differences from the version before, open beside the approval. */
export function SinceBefore({ type, since, onTrouble }: Props) {
  const words = useTypeWords();
  const [before, setBefore] = useState<AircraftType | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the caller's function is new at every picture
  useEffect(() => {
    types.read({ id: type.id, version: since }).then((read) => setBefore(read.type), onTrouble);
  }, [type.id, since]);
  if (!before) return null;
  return (
    <details className="since-before" open>
      <summary>{words.changedSince(since)}</summary>
      <DifferenceTable
        found={difference(before, type)}
        before={words.version(since)}
        after={words.version(type.version)}
      />
    </details>
  );
}

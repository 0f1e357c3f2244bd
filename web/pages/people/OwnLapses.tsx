import { useEffect, useState } from "react";
import type { Lapse } from "../../../shared/house/lapses.ts";
import { currencies } from "../../net/currencies.ts";
import { useCurrencyWords } from "../../words/currency.ts";
import { Lapses } from "./Lapses.tsx";

/** One's own currencies that are over or end within 30 days. */
export function OwnLapses({ onTrouble }: { onTrouble(error: Error): void }) {
  const words = useCurrencyWords();
  const [lapses, setLapses] = useState<Lapse[]>([]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: fetch once
  useEffect(() => {
    currencies.own().then(setLapses, onTrouble);
  }, []);
  if (lapses.length === 0) return null;
  return (
    <section className="own" aria-label={words.own}>
      <h2>{words.own}</h2>
      <Lapses lapses={lapses} />
    </section>
  );
}

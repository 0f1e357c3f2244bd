import { useEffect, useRef, useState } from "react";
import { api } from "../net/app.ts";
import type { Me } from "../net/keep.ts";
import { wishFor } from "../posts/observer/wished.ts";
import { Trouble } from "../ui/Trouble.tsx";
import { useLaterWords } from "../words/later.ts";
import { DemoKeys } from "./DemoKeys.tsx";
import { exceptOf, PLAYS, type Play } from "./played.ts";
import { go } from "./route.ts";

/** Begins the demo's scripted crew for this person, and leads to its session. */
export function DemoStart({ me, play }: { me: Me; play: Play | null }) {
  const { demo } = useLaterWords();
  const [here, setHere] = useState(false);
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<Error | null>(null);
  const begun = useRef(false);
  useEffect(() => {
    api.demo().then(
      (d) => setHere(d.crews),
      () => undefined,
    );
  }, []);
  const begin = async (wanted: Play) => {
    setBusy(true);
    setTrouble(null);
    try {
      const { id } = await api.demoCrew(exceptOf(wanted));
      if (wanted !== "watch") wishFor(id, wanted);
      go(`/session/${id}`);
    } catch (error) {
      setTrouble(error instanceof Error ? error : new Error(String(error)));
      setBusy(false);
    }
  };
  // biome-ignore lint/correctness/useExhaustiveDependencies: once for what the address asks
  useEffect(() => {
    if (play === null || begun.current) return;
    begun.current = true;
    void begin(play);
  }, [play]);
  if (!here && !busy && trouble === null) return null;
  return (
    <section className="demo-start" aria-label={demo.watch}>
      <DemoKeys
        plays={PLAYS.filter((p) => p === "watch" || me.mayHold.includes(p))}
        busy={busy}
        onPlay={(p) => void begin(p)}
      />
      {busy && <p>{demo.begins}</p>}
      <Trouble of={trouble} />
    </section>
  );
}

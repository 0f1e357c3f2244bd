import { useEffect, useRef, useState } from "react";
import { aircraft as register } from "../net/aircraft.ts";
import { api } from "../net/app.ts";
import type { Me } from "../net/keep.ts";
import { rehearsals } from "../net/rehearsals.ts";
import { wishFor } from "../posts/observer/wished.ts";
import { Trouble } from "../ui/Trouble.tsx";
import { useLaterWords } from "../words/later.ts";
import { DemoKeys } from "./DemoKeys.tsx";
import { InventedYear } from "./history/InventedYear.tsx";
import { PLAYS, type Play, postOf } from "./played.ts";
import { go } from "./route.ts";

/** Begins a rehearsal for this person, with partners at the other posts, and leads to it. */
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
      const plannable = (await register.list()).find((a) => a.bar === null && !a.retired);
      const { id } = await rehearsals.begin(plannable?.id ?? "", "firstDay", postOf(wanted));
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
    <div className="demo-start">
      <section aria-label={demo.watch}>
        <DemoKeys
          plays={PLAYS.filter((p) => p === "watch" || me.mayHold.includes(p))}
          busy={busy}
          onPlay={(p) => void begin(p)}
        />
        {busy && <p>{demo.begins}</p>}
        <Trouble of={trouble} />
      </section>
      <InventedYear onTrouble={setTrouble} />
    </div>
  );
}

import { useState } from "react";
import type { AircraftType } from "../../../shared/types/schema.ts";
import type { Me } from "../../net/keep.ts";
import { type TypePlace, types } from "../../net/types.ts";
import { PinEntry } from "../../ui/PinEntry.tsx";
import { useTypeWords } from "../../words/types.ts";
import { go } from "../route.ts";
import { Bases } from "./Bases.tsx";
import { SinceBefore } from "./SinceBefore.tsx";

interface Props {
  place: TypePlace;
  type: AircraftType;
  /** Revision of the version on the page; only this one is approved. */
  tag: string;
  me: Me;
  author: string;
  /** Number of the approved version before it, or null. */
  since: number | null;
  onApproved(): void;
  onTrouble(error: Error): void;
}

/** Approval by a second person, after confirming that they looked. The server decides who may approve. */
export function Approval({ place, type, tag, me, author, since, onApproved, onTrouble }: Props) {
  const words = useTypeWords();
  const [looked, setLooked] = useState(false);
  if (author.split(", ").includes(me.name)) return <p className="approval">{words.ownHand}</p>;
  if (!me.mayHold.includes("supervisor")) return <p className="approval">{words.otherApproves}</p>;
  return (
    <section className="approval" aria-label={words.approval}>
      <h2>{words.approval}</h2>
      <p>
        {words.never}{" "}
        {since !== null && (
          <button
            type="button"
            className="small-key"
            onClick={() => go(`/types/${place.id}/${place.version}/since/${since}`)}
          >
            {words.see(since)}
          </button>
        )}
      </p>
      <Bases type={type} />
      {since !== null && <SinceBefore type={type} since={since} onTrouble={onTrouble} />}
      <label className="tf-check">
        <input name="looked" type="checkbox" checked={looked} onChange={(e) => setLooked(e.target.checked)} />
        {words.checked(me.name)}
      </label>
      <PinEntry
        word={words.approve(place.version)}
        disabled={!looked}
        onEnter={(pin) => void types.approve(place, tag, pin).then(onApproved, onTrouble)}
      />
    </section>
  );
}

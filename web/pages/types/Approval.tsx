import { useState } from "react";
import type { Me } from "../../net/keep.ts";
import { type TypePlace, types } from "../../net/types.ts";
import { PinEntry } from "../../ui/PinEntry.tsx";
import { useTypeWords } from "../../words/types.ts";
import { go } from "../route.ts";

interface Props {
  place: TypePlace;
  /** The revision that stands on the page: that one is approved, no other. */
  tag: string;
  me: Me;
  author: string;
  /** The approved version before it. */
  since: number | null;
  onApproved(): void;
  onTrouble(error: Error): void;
}

/** A second person approves, after saying that they looked. The server decides who may. */
export function Approval({ place, tag, me, author, since, onApproved, onTrouble }: Props) {
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

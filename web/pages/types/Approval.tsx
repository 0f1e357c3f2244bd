import { useState } from "react";
import type { Me } from "../../net/keep.ts";
import { type TypePlace, types } from "../../net/types.ts";
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
  const [looked, setLooked] = useState(false);
  if (author.split(", ").includes(me.name))
    return <p className="approval">You had a hand in this draft: a second person approves it.</p>;
  if (!me.mayHold.includes("supervisor"))
    return <p className="approval">Somebody qualified as supervisor approves it.</p>;
  return (
    <section className="approval" aria-label="Approval">
      <h2>Approval</h2>
      <p>
        Once approved it never changes, and starts are planned on it.{" "}
        {since !== null && (
          <button
            type="button"
            className="small-key"
            onClick={() => go(`/types/${place.id}/${place.version}/since/${since}`)}
          >
            See what differs from version {since}
          </button>
        )}
      </p>
      <label className="tf-check">
        <input type="checkbox" checked={looked} onChange={(e) => setLooked(e.target.checked)} />I am {me.name}
        , and I checked every figure against its source.
      </label>
      <button
        type="button"
        className="answer"
        data-tone="yes"
        disabled={!looked}
        onClick={() => void types.approve(place, tag).then(onApproved, onTrouble)}
      >
        Approve version {place.version}
      </button>
    </section>
  );
}

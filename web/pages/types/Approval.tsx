import { useState } from "react";
import type { Me } from "../../net/keep.ts";
import { type TypePlace, types } from "../../net/types.ts";
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
  const [pin, setPin] = useState("");
  const approve = () => {
    const entered = pin;
    // Never kept longer than it is needed.
    setPin("");
    void types.approve(place, tag, entered).then(onApproved, onTrouble);
  };
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
        <input type="checkbox" checked={looked} onChange={(e) => setLooked(e.target.checked)} />
        {words.checked(me.name)}
      </label>
      <label className="field">
        <span>{words.pinAgain}</span>
        <input
          type="password"
          inputMode="numeric"
          autoComplete="off"
          value={pin}
          maxLength={64}
          onChange={(e) => setPin(e.target.value)}
        />
      </label>
      <button
        type="button"
        className="answer"
        data-tone="yes"
        disabled={!looked || pin.length < 4}
        onClick={approve}
      >
        {words.approve(place.version)}
      </button>
    </section>
  );
}

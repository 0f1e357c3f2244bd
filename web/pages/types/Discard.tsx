import { useState } from "react";
import { type TypePlace, types } from "../../net/types.ts";
import { useTypeWords } from "../../words/types.ts";

interface Props {
  place: TypePlace;
  /** Revision of the draft on the page; only this one is discarded. */
  tag: string;
  onDiscarded(): void;
  onTrouble(error: Error): void;
}

/** Discards a draft by two touches, because it cannot be restored. */
export function Discard({ place, tag, onDiscarded, onTrouble }: Props) {
  const words = useTypeWords();
  const [sure, setSure] = useState(false);
  return (
    <section className="approval" aria-label={words.discard}>
      {sure ? (
        <>
          <p>{words.discardIs(place.version)}</p>
          <button
            type="button"
            className="answer"
            data-tone="no"
            onClick={() => void types.discard(place, tag).then(onDiscarded, onTrouble)}
          >
            {words.discardIt(place.version)}
          </button>
          <button type="button" className="answer" data-tone="plain" onClick={() => setSure(false)}>
            {words.keepIt}
          </button>
        </>
      ) : (
        <button type="button" className="answer" data-tone="plain" onClick={() => setSure(true)}>
          {words.discard}
        </button>
      )}
    </section>
  );
}

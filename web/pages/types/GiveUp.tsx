import { useState } from "react";
import { begunTypes, type ReadBegun } from "../../net/begunTypes.ts";
import { useTypeWords } from "../../words/types.ts";
import { go } from "../route.ts";

interface Props {
  /** The type as it was read; only this revision is given up. */
  begun: ReadBegun;
  onTrouble(error: Error): void;
}

/** Gives a begun type up by two touches. */
export function GiveUp({ begun, onTrouble }: Props) {
  const words = useTypeWords();
  const [sure, setSure] = useState(false);
  if (!sure)
    return (
      <button type="button" className="small-key give-up" onClick={() => setSure(true)}>
        {words.giveUp}
      </button>
    );
  return (
    <section className="approval" aria-label={words.giveUp}>
      <p>{words.giveUpIs(begun.name)}</p>
      <button
        type="button"
        className="answer"
        data-tone="no"
        onClick={() => void begunTypes.giveUp(begun.id, begun.tag).then(() => go("/types"), onTrouble)}
      >
        {words.giveUpIt(begun.name)}
      </button>
      <button type="button" className="answer" data-tone="plain" onClick={() => setSure(false)}>
        {words.keepIt}
      </button>
    </section>
  );
}

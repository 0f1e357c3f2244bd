import { POSTS } from "../../shared/protocol/posts.ts";
import { useLaterWords } from "../words/later.ts";
import type { Play } from "./played.ts";

interface Props {
  /** The keys of this person here. */
  plays: readonly Play[];
  busy: boolean;
  onPlay(play: Play): void;
}

/** Keys by which a newcomer sees the demo at work: watch a scripted crew, or be one of it. */
export function DemoKeys({ plays, busy, onPlay }: Props) {
  const { demo } = useLaterWords();
  return (
    <div className="demo-keys">
      {plays.includes("watch") && (
        <button
          type="button"
          className="answer"
          data-tone="yes"
          disabled={busy}
          onClick={() => onPlay("watch")}
        >
          {demo.watch}
        </button>
      )}
      <div className="option-keys">
        {POSTS.filter((p) => plays.includes(p)).map((p) => (
          <button
            key={p}
            type="button"
            className="answer"
            data-tone="plain"
            disabled={busy}
            onClick={() => onPlay(p)}
          >
            {demo.be[p]}
          </button>
        ))}
      </div>
      <p>{demo.what}</p>
    </div>
  );
}

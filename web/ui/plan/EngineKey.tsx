import { useWords } from "../../words/words.ts";
import { EngineShape } from "./EngineShape.tsx";
import type { EngineMark } from "./planView.ts";

interface Props {
  engine: EngineMark;
  /** Undefined where the engine is only shown. */
  onPress: (() => void) | undefined;
}

/** An engine's number, state and count, large enough for a glove. */
export function EngineKey({ engine, onPress }: Props) {
  const { plan } = useWords().text;
  const says = plan.engine(engine.n, engine.count ? `${engine.word}, ${engine.count}` : engine.word);
  const drawn = (
    <>
      {/* The spaces separate the words for people who read them without the drawing. */}
      <span className="engine-number">{engine.n}</span> <EngineShape shape={engine.shape} />
      <span className="engine-word">{engine.word}</span>{" "}
      <span className="engine-count" data-over={engine.over || undefined}>
        {engine.count ?? " "}
      </span>
    </>
  );
  const same = {
    className: "engine-key",
    "data-shape": engine.shape,
    "data-turning": engine.turning || undefined,
    "aria-label": says,
  };
  if (!onPress)
    return (
      <div role="img" {...same}>
        {drawn}
      </div>
    );
  return (
    <button type="button" {...same} data-asked={engine.asked || undefined} onClick={onPress}>
      {drawn}
    </button>
  );
}

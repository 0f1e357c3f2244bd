import { useWords } from "../../words/words.ts";
import type { EngineMark } from "./planView.ts";

interface Props {
  engine: EngineMark;
  /** Left out where it is only drawn. */
  onPress: (() => void) | undefined;
}

/** An engine's number, state and count, large enough for a glove. */
export function EngineKey({ engine, onPress }: Props) {
  const { plan } = useWords().text;
  const says = plan.engine(engine.n, engine.count ? `${engine.word}, ${engine.count}` : engine.word);
  const drawn = (
    <>
      <span className="engine-number">{engine.n}</span>
      <EngineShapeMark shape={engine.shape} />
      <span className="engine-word">{engine.word}</span>
      <span className="engine-count" data-over={engine.over || undefined}>
        {engine.count ?? " "}
      </span>
    </>
  );
  const same = { className: "engine-key", "data-shape": engine.shape, "aria-label": says };
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

/** The state as a shape alone, for eyes that do not tell the colours. */
function EngineShapeMark({ shape }: { shape: EngineMark["shape"] }) {
  return (
    <svg viewBox="0 0 24 24" className="engine-shape" aria-hidden="true">
      {shape === "ring" && <circle cx="12" cy="12" r="8" className="line" />}
      {shape === "asked" && (
        <>
          <circle cx="12" cy="12" r="8" className="line" strokeDasharray="4 3" />
          <circle cx="12" cy="12" r="3" className="fill" />
        </>
      )}
      {shape === "clear" && <path d="M12 3l9 9-9 9-9-9z" className="fill" />}
      {shape === "turning" && <path d="M4 4l16 16M20 4L4 20M12 2v20" className="line" />}
      {shape === "stable" && <circle cx="12" cy="12" r="9" className="fill" />}
      {shape === "stopped" && <path d="M5 5h14v14H5z" className="line" />}
      {shape === "fire" && <path d="M12 2l11 20H1z" className="fill" />}
    </svg>
  );
}

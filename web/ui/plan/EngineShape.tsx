import type { EngineMark } from "./planView.ts";

/** The state as a shape, for people who cannot distinguish the colours. */
export function EngineShape({ shape }: { shape: EngineMark["shape"] }) {
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

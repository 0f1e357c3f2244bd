import { useWords } from "../words/words.ts";

export interface StandingStop {
  id: string;
  kind: "hold" | "cut" | "fire";
  /** The stop, and the person who raised it. */
  words: string;
  /** The condition for it to end. */
  ends: string;
  /** True until this post has answered. */
  unanswered: boolean;
  /** The key that ends it, for a person who may; else null. */
  end: { word: string; disabled: boolean; onPress(): void } | null;
}

/** Every standing stop, above everything else. */
export function Standing({ stops }: { stops: readonly StandingStop[] }) {
  const words = useWords().text.standing;
  if (stops.length === 0) return null;
  return (
    <section className="standing" aria-label={words.region} role="alert">
      {stops.map((s) => (
        <div
          key={s.id}
          className="standing-row"
          data-kind={s.kind}
          data-unanswered={s.unanswered || undefined}
        >
          <StandingMark kind={s.kind} />
          <strong>{s.words}</strong>
          <span>{s.ends}</span>
          {s.end && (
            <button type="button" className="small-key" disabled={s.end.disabled} onClick={s.end.onPress}>
              {s.end.word}
            </button>
          )}
        </div>
      ))}
    </section>
  );
}

function StandingMark({ kind }: { kind: StandingStop["kind"] }) {
  return (
    <svg viewBox="0 0 32 32" className="standing-mark" aria-hidden="true">
      {kind === "hold" && <path d="M6 3h7v26H6zM19 3h7v26h-7z" />}
      {kind === "cut" && <path d="M10 1h12l9 9v12l-9 9H10l-9-9V10z" />}
      {kind === "fire" && <path d="M16 1l15 29H1z" />}
    </svg>
  );
}

import { useWords } from "../words/words.ts";

export interface StandingStop {
  id: string;
  kind: "hold" | "cut" | "fire" | "slip";
  /** The stop, and the person who raised it. */
  words: string;
  /** The condition for it to end. */
  ends: string;
  /** True while `ends` is only the rule and nobody has done a part of it: a telephone then leaves it out. */
  rule?: boolean;
  /** True until this post has answered. */
  unanswered: boolean;
  /** The keys of this person: to say where a fire burns, or to end the stop. */
  keys: { word: string; disabled: boolean; onPress(): void }[];
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
          data-rule={s.rule || undefined}
        >
          <StandingMark kind={s.kind} />
          <strong>{s.words}</strong>
          <span>{s.ends}</span>
          {s.keys.length > 0 && (
            <div className="standing-keys">
              {s.keys.map((k) => (
                <button
                  key={k.word}
                  type="button"
                  className="small-key"
                  disabled={k.disabled}
                  onClick={k.onPress}
                >
                  {k.word}
                </button>
              ))}
            </div>
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
      {kind === "fire" && (
        <path d="M16 1c2 7 9 9 9 18a9 9 0 0 1-18 0c0-4 2-6 4-9 1 3 2 4 3 4 1-4-1-8 2-13z" />
      )}
    </svg>
  );
}

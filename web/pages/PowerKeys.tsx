export type Power = "groundPower" | "batteries";

interface Props {
  power: Power;
  words: Readonly<Record<Power, string>>;
  onPower(power: Power): void;
}

/** What the engines are started on. */
export function PowerKeys({ power, words, onPower }: Props) {
  return (
    <div className="option-keys">
      {(["groundPower", "batteries"] as const).map((p) => (
        <button
          key={p}
          type="button"
          className="answer"
          data-tone="plain"
          aria-pressed={power === p}
          onClick={() => onPower(p)}
        >
          {words[p]}
        </button>
      ))}
    </div>
  );
}

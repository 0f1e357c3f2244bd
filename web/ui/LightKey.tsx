import { type Light, NEXT_LIGHT } from "../words/light.ts";
import { useWords } from "../words/words.ts";

/** A key that names the current light; one touch changes to the next. */
export function LightKey({ light, onLight }: { light: Light; onLight(next: Light): void }) {
  const { names, key } = useWords().text.light;
  const next = NEXT_LIGHT[light];
  return (
    <button
      type="button"
      className="light-key"
      aria-label={key(names[light].toLowerCase(), names[next].toLowerCase())}
      onClick={() => onLight(next)}
    >
      <svg viewBox="0 0 32 32" className="light-shape" aria-hidden="true">
        <title>{names[light]}</title>
        {light === "sun" && <path d="M16 2v6M16 24v6M2 16h6M24 16h6M6 6l4 4M22 22l4 4M6 26l4-4M22 10l4-4" />}
        {light === "sun" && <circle cx="16" cy="16" r="5" />}
        {light === "indoor" && <path d="M3 15L16 4l13 11M7 13v15h18V13" />}
        {light === "night" && <path d="M21 3a13.5 13.5 0 1 0 8 20A11 11 0 0 1 21 3z" />}
      </svg>
      <span>{names[light]}</span>
    </button>
  );
}

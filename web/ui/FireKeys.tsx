import { FIRE_PLACES, type FirePlace } from "../../shared/protocol/signals.ts";
import { useWords } from "../words/words.ts";

interface Props {
  /** Engine numbers in the order on screen. */
  numbers: readonly number[];
  /** The engines and places already said of the fire. */
  said: { engines: readonly number[]; places: readonly FirePlace[] };
  onEngine(n: number): void;
  onPlace(place: FirePlace): void;
}

const PLACES = FIRE_PLACES.filter((place) => place !== "notSaid");

/** The number and the place of a fire, in either order. Each touch is sent by itself; what was said is marked. */
export function FireKeys({ numbers, said, onEngine, onPlace }: Props) {
  const { say, text } = useWords();
  return (
    <>
      <div className="number-keys">
        {numbers.map((n) => (
          <button
            key={n}
            type="button"
            className="number-key"
            aria-label={text.entry.engineKey(n)}
            aria-pressed={said.engines.includes(n)}
            onClick={() => onEngine(n)}
          >
            {n}
          </button>
        ))}
      </div>
      <div className="place-keys">
        {PLACES.map((place) => (
          <button
            key={place}
            type="button"
            className="answer"
            data-tone="no"
            aria-pressed={said.places.includes(place)}
            onClick={() => onPlace(place)}
          >
            {say.firePlace(place)}
          </button>
        ))}
      </div>
    </>
  );
}

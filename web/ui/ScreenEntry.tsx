import { useEffect, useRef, useState } from "react";
import { useLaterWords } from "../words/later.ts";
import { useWords } from "../words/words.ts";

/** ISO/IEC 7810 ID-1, the size of bank and identity cards: 85.60 by 53.98 mm. */
const CARD = { long: 85.6, short: 53.98 };

/** Steps in pixels per millimetre: a coarse step changes the outline of a card by 17 px, a fine one by less than 2. */
const STEPS = [
  { by: -0.2, sign: "−−" },
  { by: -0.02, sign: "−" },
  { by: 0.02, sign: "+" },
  { by: 0.2, sign: "++" },
] as const;

interface Props {
  /** Present length of a millimetre, CSS pixels. */
  mm: number;
  bounded(mm: number): number;
  /** Called with null to return to the browser's assumption. */
  onKeep(mm: number | null): void;
}

/**
 * An outline on which to lay a card, changed in steps until both have the same width. The keys do not move until the
 * value is kept, so that they stay under the finger; they are above the outline, where no card covers them. A screen
 * narrower than the card shows it upright.
 */
export function ScreenEntry({ mm, bounded, onKeep }: Props) {
  const { entry } = useWords().text;
  const { screen } = useLaterWords();
  const [tried, setTried] = useState(bounded(mm));
  const [room, setRoom] = useState(Number.POSITIVE_INFINITY);
  const ground = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const seen = new ResizeObserver(([e]) => setRoom(e?.contentRect.width ?? Number.POSITIVE_INFINITY));
    if (ground.current) seen.observe(ground.current);
    return () => seen.disconnect();
  }, []);
  const upright = CARD.long * tried > room;
  return (
    <>
      <div className="step-keys">
        {STEPS.map(({ by, sign }) => (
          <button
            key={by}
            type="button"
            className="step-key"
            aria-label={(by < 0 ? entry.less : entry.more)(`${Math.abs(by)} ${screen.unit}`)}
            onClick={() => setTried(bounded(tried + by))}
          >
            {sign}
          </button>
        ))}
      </div>
      <strong>{upright ? screen.upright : screen.flat}</strong>
      <div ref={ground} className="screen-ground">
        <div className="screen-card" style={{ width: `${(upright ? CARD.short : CARD.long) * tried}px` }}>
          {screen.card}
        </div>
      </div>
      <p>
        {screen.what} {screen.found(tried.toFixed(2))}
      </p>
      <div className="answers">
        <button type="button" className="answer" data-tone="yes" onClick={() => onKeep(tried)}>
          {screen.keep}
        </button>
        <button type="button" className="answer" data-tone="plain" onClick={() => onKeep(null)}>
          {screen.usual}
        </button>
      </div>
    </>
  );
}

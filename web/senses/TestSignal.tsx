import { useState } from "react";
import { useLaterWords } from "../words/later.ts";
import { canVibrate, playTest, unlockSound } from "./player.ts";
import type { Tested } from "./tested.ts";

interface Props {
  /** Flashes the screen during the test, on posts whose screen flashes. */
  onFlash(): void;
  onTested(tested: Tested): void;
  /** Puts the test off; null where it was asked for. */
  onLater: (() => void) | null;
}

/**
 * Asks the person to test whether the device's signals reach them in the noise. The touch also allows the browser to
 * play sound.
 */
export function TestSignal({ onFlash, onTested, onLater }: Props) {
  const { senses } = useLaterWords();
  const [played, setPlayed] = useState(false);
  const test = () => {
    unlockSound();
    setPlayed(true);
    onFlash();
    // The audio context needs a moment after the touch that unlocked it.
    setTimeout(playTest, 150);
  };
  return (
    <section
      className="notice-row"
      data-is="plain"
      data-played={played || undefined}
      aria-label={senses.region}
    >
      <strong>{played ? senses.played : senses.ask}</strong>
      <span>
        {canVibrate() ? senses.vibrates : senses.noVibration}
        {played ? ` ${senses.louder}` : ""}
      </span>
      <span className="notice-keys">
        <button type="button" className="small-key" onClick={test}>
          {played ? senses.again : senses.test}
        </button>
        {!played && onLater && (
          <button type="button" className="small-key" onClick={onLater}>
            {senses.later}
          </button>
        )}
        {played && (
          <>
            <button type="button" className="small-key" onClick={() => onTested("reached")}>
              {senses.reached}
            </button>
            <button type="button" className="small-key" onClick={() => onTested("notReached")}>
              {senses.notReached}
            </button>
          </>
        )}
      </span>
    </section>
  );
}

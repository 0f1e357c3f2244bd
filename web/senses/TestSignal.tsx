import { useState } from "react";
import { canVibrate, playTest, unlockSound } from "./player.ts";
import type { Tested } from "./tested.ts";

interface Props {
  /** The screen flashes along, as it does at this post. */
  onFlash(): void;
  onTested(tested: Tested): void;
}

/** The first thing at a panel: does this device reach its person in the noise? The touch also lets the browser sound. */
export function TestSignal({ onFlash, onTested }: Props) {
  const [played, setPlayed] = useState(false);
  const test = () => {
    unlockSound();
    setPlayed(true);
    onFlash();
    // The context needs a moment after the touch that unlocked it.
    setTimeout(playTest, 150);
  };
  return (
    <section className="notice-row" data-is={played ? "warn" : "plain"} aria-label="Test signal">
      <strong>
        {played ? "Three tones: did they reach you?" : "Does this device reach you in the noise?"}
      </strong>
      <span>
        {canVibrate() ? "It vibrates too, if it can." : "This device cannot vibrate."}
        {played ? " If not: volume up, sound not muted, then again." : ""}
      </span>
      <span className="notice-keys">
        <button type="button" className="small-key" onClick={test}>
          {played ? "Test again" : "Test signal"}
        </button>
        {played && (
          <>
            <button type="button" className="small-key" onClick={() => onTested("reached")}>
              They reach me
            </button>
            <button type="button" className="small-key" onClick={() => onTested("notReached")}>
              They do not
            </button>
          </>
        )}
      </span>
    </section>
  );
}

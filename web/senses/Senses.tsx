import { useEffect, useRef, useState, useSyncExternalStore } from "react";
import type { Panel } from "../posts/shared/model.ts";
import { useBatteryWords } from "./battery.ts";
import { deviceWords } from "./deviceWords.ts";
import { mayTest } from "./mayTest.ts";
import { onSoundChange, play, soundIs, unlockSound } from "./player.ts";
import { flashes, type Heard, nextTone, soundingFor } from "./sounding.ts";
import { TestSignal } from "./TestSignal.tsx";
import { keepTest, keptTest } from "./tested.ts";
import { useWakeLock } from "./wakeLock.ts";

/** Duration of the screen's flashing during a test, milliseconds. */
const TEST_FLASH_MS = 2_400;

/** Plays tones, vibrates and flashes the screen, and lists the abilities this device lacks. */
export function Senses({ panel, lasting }: { panel: Panel; lasting: boolean }) {
  const { state, post } = panel;
  const [tested, setTested] = useState(keptTest);
  const [testing, setTesting] = useState(false);
  const screen = useWakeLock();
  const battery = useBatteryWords();
  const sound = useSyncExternalStore(onSoundChange, soundIs);
  useTones(panel);
  useEffect(() => {
    document.addEventListener("pointerdown", unlockSound);
    return () => document.removeEventListener("pointerdown", unlockSound);
  }, []);
  useEffect(() => {
    if (!testing) return;
    const timer = setTimeout(() => setTesting(false), TEST_FLASH_MS);
    return () => clearTimeout(timer);
  }, [testing]);
  const free = mayTest(panel);
  const words = deviceWords({ screen, sound, tested, battery, lasting }, panel.words.text);
  if (tested === "no" && !free) words.push(panel.words.text.senses.notTested);
  const flash = flashes(state, post) || (post === "fireGuard" && (testing || panel.unrecorded.length > 0));
  return (
    <div className="notices">
      {words.length > 0 && (
        <p className="notice-words" role="status">
          {words.join(" ")}
        </p>
      )}
      {tested === "no" && free && (
        <TestSignal
          onFlash={() => setTesting(true)}
          onTested={(answer) => {
            keepTest(answer);
            setTested(answer);
          }}
        />
      )}
      {flash && <div className="strobe" aria-hidden="true" />}
    </div>
  );
}

/** Plays tones for unacknowledged things at this post. Uses the panel's own clock, so that tones also play offline. */
function useTones({ state, post, now, unrecorded }: Panel): void {
  const heard = useRef<Heard>(new Map());
  useEffect(() => {
    const unheld = unrecorded.map((u) => ({
      key: `unrecorded:${u.at}:${u.by.id}`,
      tone: "emergency" as const,
      everyMs: null,
    }));
    const sounding = post === null ? unheld : [...unheld, ...soundingFor(state, post, now)];
    const next = nextTone(heard.current, sounding, now);
    heard.current = next.heard;
    if (next.tone) play(next.tone);
  }, [state, post, now, unrecorded]);
}

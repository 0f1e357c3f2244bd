import { useEffect, useRef, useState, useSyncExternalStore } from "react";
import type { Panel } from "../posts/shared/model.ts";
import { useLaterWords } from "../words/later.ts";
import { useBatteryWords } from "./battery.ts";
import { deviceWords } from "./deviceWords.ts";
import { asksForTest } from "./mayTest.ts";
import { onSoundChange, play, soundIs, unlockSound } from "./player.ts";
import { flashes, type Heard, nextTone, soundingFor } from "./sounding.ts";
import { TestSignal } from "./TestSignal.tsx";
import { keepTest, keptTest, useTested } from "./tested.ts";
import { useWakeLock } from "./wakeLock.ts";

/** Duration of the screen's flashing during a test, milliseconds. */
const TEST_FLASH_MS = 2_400;

/** Plays tones, vibrates and flashes the screen, and lists the abilities this device lacks. */
export function Senses({ panel, lasting }: { panel: Panel; lasting: boolean }) {
  const { state, post } = panel;
  const tested = useTested();
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
  const asks = asksForTest(panel, tested);
  useAskedOnce(asks);
  const words = deviceWords({ screen, sound, tested, battery, lasting }, useLaterWords());
  const flash = flashes(state, post) || (post === "fireGuard" && (testing || panel.unrecorded.length > 0));
  return (
    <div className="notices" data-row={asks ? "test" : undefined}>
      {words.length > 0 && (
        <p className="notice-words" role="status">
          {words.join(" ")}
        </p>
      )}
      {asks && (
        <TestSignal onFlash={() => setTesting(true)} onTested={keepTest} onLater={() => keepTest("asked")} />
      )}
      {flash && <div className="strobe" aria-hidden="true" />}
    </div>
  );
}

/** Once the panel has asked for the test and something else came first, it does not ask again. */
function useAskedOnce(asks: boolean): void {
  const asked = useRef(false);
  useEffect(() => {
    if (asks) asked.current = true;
    else if (asked.current && keptTest() === "no") keepTest("asked");
  }, [asks]);
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

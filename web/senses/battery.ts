import { useEffect, useState } from "react";
import type { LaterWords } from "../words/en/later.ts";
import { useLaterWords } from "../words/later.ts";

/** The part of the W3C Battery Status API that is used here. Not every browser has it. */
interface Battery extends EventTarget {
  level: number;
  charging: boolean;
}

/** A device below this share and not charging counts as low: our own judgement. */
const LOW = 0.2;

export function batteryWords(
  battery: Pick<Battery, "level" | "charging"> | null,
  { senses }: LaterWords,
): string | null {
  if (!battery || battery.charging || battery.level > LOW) return null;
  return senses.battery(Math.round(battery.level * 100));
}

/** Returns words about this device's battery, or null when there is nothing to say. */
export function useBatteryWords(): string | null {
  const text = useLaterWords();
  const [words, setWords] = useState<string | null>(null);
  useEffect(() => {
    const get = (navigator as { getBattery?: () => Promise<Battery> }).getBattery;
    if (!get) return;
    let over = false;
    let battery: Battery | null = null;
    const look = () => setWords(batteryWords(battery, text));
    get.call(navigator).then(
      (got) => {
        if (over) return;
        battery = got;
        look();
        got.addEventListener("levelchange", look);
        got.addEventListener("chargingchange", look);
      },
      () => undefined,
    );
    return () => {
      over = true;
      battery?.removeEventListener("levelchange", look);
      battery?.removeEventListener("chargingchange", look);
    };
  }, [text]);
  return words;
}

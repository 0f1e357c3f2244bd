import type { LaterWords } from "../words/en/later.ts";
import type { SoundIs } from "./player.ts";
import type { Tested } from "./tested.ts";
import type { ScreenIs } from "./wakeLock.ts";

export interface DeviceState {
  screen: ScreenIs;
  sound: SoundIs;
  tested: Tested;
  battery: string | null;
  /** True while unsent messages survive this window. */
  lasting: boolean;
}

/** Returns sentences about each reason not to rely on this device; empty when there is none. */
export function deviceWords(
  { screen, sound, tested, battery, lasting }: DeviceState,
  { senses }: LaterWords,
): string[] {
  const words: string[] = [];
  if (!lasting) words.push(senses.notLasting);
  if (battery) words.push(battery);
  if (screen === "mayGoDark" || screen === "unsupported") words.push(senses.dark);
  if (tested === "notReached" || sound === "unsupported") words.push(senses.noTone);
  else if (tested === "reached" && sound === "locked") words.push(senses.soundOff);
  return words;
}

import type { SoundIs } from "./player.ts";
import type { Tested } from "./tested.ts";
import type { ScreenIs } from "./wakeLock.ts";

export interface DeviceState {
  screen: ScreenIs;
  sound: SoundIs;
  tested: Tested;
  battery: string | null;
  /** What waits to be sent outlives this window. */
  lasting: boolean;
}

/** Everything about this device that keeps it from being relied on, in words; empty when nothing does. */
export function deviceWords({ screen, sound, tested, battery, lasting }: DeviceState): string[] {
  const words: string[] = [];
  if (!lasting) words.push("Unsent signals are not kept on this device: do not close or reload this tab.");
  if (battery) words.push(battery);
  if (screen === "mayGoDark" || screen === "unsupported")
    words.push("The screen may go dark: this device does not keep it lit.");
  if (tested === "notReached" || sound === "unsupported")
    words.push("No tone reaches you here: watch the screen.");
  else if (tested === "reached" && sound === "locked") words.push("Sound is off until you touch the screen.");
  return words;
}

import { lasts, TONES, type Tone } from "./tones.ts";

/** Sound output of this device. Browsers stay silent ("locked") until a person has touched the page. */
export type SoundIs = "locked" | "ready" | "unsupported";

let context: AudioContext | null = null;
const listeners = new Set<() => void>();
const announce = () => {
  for (const listener of listeners) listener();
};

export const soundIs = (): SoundIs => {
  if (!("AudioContext" in globalThis)) return "unsupported";
  return context?.state === "running" ? "ready" : "locked";
};

export function onSoundChange(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

/** Enables sound. Must be called during a touch, as browsers require. */
export function unlockSound(): void {
  if (soundIs() !== "locked") return;
  if (!context) {
    context = new AudioContext();
    context.onstatechange = announce;
  }
  void context.resume().then(announce, announce);
}

export const canVibrate = (): boolean => typeof navigator.vibrate === "function";

/** Plays a tone after `wait` seconds; without a wait it also vibrates where the device can. */
export function play(tone: Tone, wait = 0): void {
  // Browsers refuse to vibrate before the page was touched, and report each attempt as an error.
  const touched = navigator.userActivation?.hasBeenActive ?? true;
  if (wait === 0 && touched && canVibrate()) navigator.vibrate([...TONES[tone].vibrate]);
  if (context?.state !== "running") return;
  const start = context.currentTime + wait;
  for (const note of TONES[tone].notes) {
    const oscillator = new OscillatorNode(context, { type: "square", frequency: note.hz });
    const gain = new GainNode(context, { gain: 0 });
    oscillator.connect(gain).connect(context.destination);
    const [from, to] = [start + note.at, start + note.at + note.long];
    // Ramp the gain over 8 ms: an abrupt start clicks.
    gain.gain.setValueAtTime(0, from);
    gain.gain.linearRampToValueAtTime(0.6, from + 0.008);
    gain.gain.setValueAtTime(0.6, to - 0.008);
    gain.gain.linearRampToValueAtTime(0, to);
    oscillator.start(from);
    oscillator.stop(to);
  }
}

const PAUSE_S = 0.5;

/** Plays the three alert tones one after another, most urgent first. */
export function playTest(): void {
  let at = 0;
  for (const tone of ["emergency", "alarm", "warning"] as const) {
    play(tone, at);
    at += lasts(tone) + PAUSE_S;
  }
}

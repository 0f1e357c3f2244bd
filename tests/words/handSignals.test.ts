import { expect, it } from "vitest";
import { HAND_SIGNALS } from "../../shared/handSignals/all.ts";
import { LOOK_ALIKES } from "../../shared/handSignals/lookAlikes.ts";
import { signals, tells } from "../../shared/words/es/handSignals.ts";
import { signalWords, tellsIn } from "../../shared/words/handSignals.ts";

it("[LNG-1] every hand signal is told in Spanish, with a note where English has one", () => {
  expect(Object.keys(signals).sort()).toEqual(HAND_SIGNALS.map((s) => s.key).sort());
  for (const signal of HAND_SIGNALS) {
    const { name, direction, meaning, movement, wandWords, note } = signalWords(signal, "es");
    for (const words of [name, direction, meaning, movement, wandWords]) expect(words).not.toBe("");
    expect(movement, signal.key).not.toBe(signal.movement);
    expect(note === null, signal.key).toBe(signal.note === null);
    expect(signalWords(signal, "en")).toBe(signal);
  }
});

it("[LNG-1] a side named in one language is the same side in the other", () => {
  const sides = (text: string) => [
    ...[...text.matchAll(/\bright\b|\bderech[ao]\b/gi)].map(() => "right"),
    ...[...text.matchAll(/\bleft\b|\bizquierd[ao]\b/gi)].map(() => "left"),
  ];
  for (const signal of HAND_SIGNALS)
    expect(new Set(sides(signalWords(signal, "es").movement)), signal.key).toEqual(
      new Set(sides(signal.movement)),
    );
});

it("[LNG-1] every group of look-alikes is told apart in Spanish", () => {
  expect(tells).toHaveLength(LOOK_ALIKES.length);
  expect(tellsIn("en")).toEqual(LOOK_ALIKES.map((l) => l.tell));
});

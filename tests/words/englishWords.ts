import { readdirSync } from "node:fs";
import { demo } from "../../seed/demo-data.ts";
import { HAND_SIGNALS } from "../../shared/handSignals/all.ts";
import { UNITS } from "../../shared/protocol/quantity.ts";
import type { Phrase } from "../../shared/words/piece.ts";
import { parts } from "../../web/words/es/parts.ts";
import { leaves } from "./leaves.ts";

const FOLDERS = ["shared/words", "web/words", "server/print/words"];

/** Words of three letters and more: shorter ones are units, or the same in many languages. */
const wordsIn = (text: string): string[] => text.toLowerCase().match(/\p{L}{3,}/gu) ?? [];

const isPhrases = (value: unknown): value is readonly Phrase[] =>
  Array.isArray(value) && value.every((v) => Array.isArray(v) && v.length === 2);

/** Returns everything that the catalogues of a language say, and that language's side of the phrases. */
async function said(language: "en" | "es"): Promise<{ own: string[]; phrases: Phrase[] }> {
  const files = FOLDERS.flatMap((folder) =>
    readdirSync(folder, { recursive: true, encoding: "utf8" })
      .filter((f) => f === `${language}.ts` || f.startsWith(`${language}/`))
      .map((f) => `../../${folder}/${f}`),
  );
  const modules = await Promise.all(files.map((f) => import(f) as Promise<Record<string, unknown>>));
  const values = modules.flatMap((m) => Object.values(m));
  const phrases = values.filter(isPhrases).flat();
  const own = values
    .filter((v) => typeof v === "object" && v !== null && !isPhrases(v))
    .flatMap((v) => (isSay(v) ? [] : [...leaves(v as object).values()].map((l) => l.words)));
  return { own, phrases };
}

/** Functions of a language that build sentences from its catalogues. */
const isSay = (value: unknown) => typeof (value as { ask?: unknown }).ask === "function";

/** Returns every text of the demo: names, and what the authors of its types wrote. They stay in their own language. */
function writtenByOthers(value: unknown): string[] {
  if (typeof value === "string") return [value];
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(writtenByOthers) : [];
}

/** Returns identifiers that an author gave, whole and in parts, without the project's own, which have names. */
const identifiers = (texts: readonly string[]) =>
  texts
    .filter((t) => /^[a-z][\w-]*$/.test(t) && !Object.hasOwn(parts, t))
    .flatMap((t) => [t, t.replace(/[A-Z]/g, (c) => ` ${c.toLowerCase()}`)]);

/** A long text may be cut for lack of room: returns it without an author's words at its end. */
function withoutCut(text: string, others: readonly string[]): string {
  if (!text.endsWith("…")) return text;
  const cut = text.slice(0, -1);
  const ends = [...cut.matchAll(/^|: /g)].map((m) => cut.slice(m.index + m[0].length));
  const written = ends.find((end) => others.some((o) => o.startsWith(end)));
  return written ? cut.slice(0, -written.length) : text;
}

/**
 * Returns a function that finds in a text every word that the English catalogue has and the Spanish one has not, except
 * names and authors' words.
 */
export async function englishFinder(): Promise<(text: string) => string[]> {
  const [english, spanish] = [await said("en"), await said("es")];
  const signals = HAND_SIGNALS.map((s) => `${s.name} ${s.movement} ${s.meaning}`);
  // In English the names of a type's parts are those of the schema, split into words.
  const apart = Object.keys(parts).map((k) => k.replace(/[A-Z:]/g, " $&"));
  const kept = new Set(wordsIn([...UNITS, ...spanish.own, ...spanish.phrases.map(([, s]) => s)].join(" ")));
  const words = new Set(
    wordsIn([...english.own, ...spanish.phrases.map(([e]) => e), ...signals, ...apart].join(" ")).filter(
      (w) => !kept.has(w),
    ),
  );
  // A gauge's name stands in the middle of the catalogue's sentences.
  const gauges = demo.types.flatMap((t) => t.gauges.map((g) => g.name.toLowerCase()));
  const texts = [...new Set([...writtenByOthers(demo), ...gauges])];
  const ids = new Set(identifiers(texts));
  const others = texts.filter((t) => / |^[A-Z]/.test(t)).sort((a, b) => b.length - a.length);
  const isId = (text: string) => ids.has(text.trim().toLowerCase()) || ids.has(text.trim());
  return (shown) => {
    const text = shown.replaceAll("\u00a0", " ");
    if (!wordsIn(text).some((w) => words.has(w))) return [];
    const own = others.reduce((t, o) => t.replaceAll(o, " "), withoutCut(text, others));
    const left = isId(text) ? "" : own;
    // A list, or a name and its value: an identifier stands alone in it.
    const stretches = left.split(/[:,]/).filter((stretch) => !isId(stretch));
    return stretches.flatMap(wordsIn).filter((w) => words.has(w));
  };
}

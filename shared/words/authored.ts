import type { TypeFault } from "../types/fault.ts";
import type { AircraftType } from "../types/schema.ts";
import type { Language } from "./language.ts";

/** A text that a type's author wrote, in the author's language and in the others. */
interface Authored {
  /** Path of the text in the type. */
  path: string;
  /** Path of its translation. */
  translationPath: string;
  words: string;
  translation: string | undefined;
}

/** The member of a type that holds the Spanish of another. An author writes in English. */
const SPANISH = { name: "nameEs", title: "titleEs", words: "wordsEs" } as const;
type Part = keyof typeof SPANISH;

/** Returns every text of a type that a panel shows: gauges, checks, items of the card, drills and their steps. */
function textsOf({ gauges, checks, drills, card = [] }: AircraftType): Authored[] {
  const text = (path: string, part: Part, of: Partial<Record<string, unknown>>): Authored => ({
    path: `${path}.${part}`,
    translationPath: `${path}.${SPANISH[part]}`,
    words: of[part] as string,
    translation: of[SPANISH[part]] as string | undefined,
  });
  return [
    ...gauges.map((g, i) => text(`gauges.${i}`, "name", g)),
    ...checks.map((c, i) => text(`checks.${i}`, "words", c)),
    ...card.map((c, i) => text(`card.${i}`, "words", c)),
    ...drills.flatMap((d, i) => [
      text(`drills.${i}`, "title", d),
      ...Object.entries(d.cards).flatMap(([post, steps]) =>
        steps.map((s, k) => text(`drills.${i}.cards.${post}.${k}`, "words", s)),
      ),
    ]),
  ];
}

const translated = new WeakMap<AircraftType, AircraftType>();

/**
 * Returns the type with its author's texts in a language, where the author gave them. A text without its translation
 * stays as written. Nothing but texts for people changes.
 */
export function typeIn(type: AircraftType, language: Language): AircraftType {
  if (language === "en") return type;
  const known = translated.get(type);
  if (known) return known;
  const { gauges, checks, drills, card } = type;
  const told: AircraftType = {
    ...type,
    gauges: gauges.map((g) => ({ ...g, name: g.nameEs ?? g.name })),
    checks: checks.map((c) => ({ ...c, words: c.wordsEs ?? c.words })),
    ...(card ? { card: card.map((c) => ({ ...c, words: c.wordsEs ?? c.words })) } : {}),
    drills: drills.map((d) => ({
      ...d,
      title: d.titleEs ?? d.title,
      cards: {
        cockpit: stepsIn(d.cards.cockpit),
        fireGuard: stepsIn(d.cards.fireGuard),
        groundPower: stepsIn(d.cards.groundPower),
        supervisor: stepsIn(d.cards.supervisor),
      },
    })),
  };
  translated.set(type, told);
  return told;
}

function stepsIn(steps: AircraftType["drills"][number]["cards"]["cockpit"]) {
  return steps.map((s) => ({ ...s, words: s.wordsEs ?? s.words }));
}

/** Returns a session's state for display, its type in a person's language. */
export function stateIn<S extends { type: AircraftType }>(state: S, language: Language): S {
  const type = typeIn(state.type, language);
  return type === state.type ? state : { ...state, type };
}

/** Returns the texts that a reader of this language sees as their author wrote them. */
export function leftAsWritten(type: AircraftType, language: Language): ReadonlySet<string> {
  if (language === "en") return new Set();
  return new Set(textsOf(type).flatMap((t) => (t.translation === undefined ? [t.words] : [])));
}

/** Returns what the author is told beside the faults, and what stops nobody: texts that lack their Spanish. */
export function untranslated(type: AircraftType): TypeFault[] {
  return textsOf(type)
    .filter((t) => t.translation === undefined)
    .map((t) => ({ path: t.translationPath, message: `no Spanish yet: ${t.words}` }));
}

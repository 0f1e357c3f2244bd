import type { Language } from "./language.ts";

type Forms = Partial<Record<Intl.LDMLPluralRule, string>> & { other: string };

/** Returns a function that chooses the form of a word for a count, by the language's own rules (Unicode CLDR). */
export function pluralsOf(language: Language): (count: number, forms: Forms) => string {
  const rules = new Intl.PluralRules(language);
  return (count, forms) => forms[rules.select(count)] ?? forms.other;
}

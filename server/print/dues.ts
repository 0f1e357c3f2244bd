import type { Due } from "../../shared/dues/dues.ts";
import { dueLine, duesWords } from "../../shared/words/dues.ts";
import type { Language } from "../../shared/words/language.ts";
import { SPOKEN } from "../../shared/words/spoken.ts";
import { Sheet } from "./sheet.ts";
import { table } from "./table.ts";

/** Returns the PDF of what is due: over, soon, and later. The same dues and `now` give the same bytes. */
export async function printDues(dues: readonly Due[], language: Language, now: number): Promise<Buffer> {
  const words = duesWords(language);
  const { title, about, caution } = words;
  const sheet = new Sheet({ title, about, now, caution, language });
  for (const is of ["over", "soon", "later"] as const) {
    sheet.heading(words.is[is], is === "over" ? "danger" : "ink");
    const lines = dues.filter((d) => d.is === is).map((d) => dueLine(d, SPOKEN[language]));
    await table(
      sheet,
      [
        { head: words.whom, share: 0.2, face: "monoBold" },
        { head: words.what, share: 0.36 },
        { head: words.when, share: 0.22 },
        { head: words.source, share: 0.22 },
      ],
      lines.map(({ whom, what, when, source }) => ({ cells: [whom, what, when, source] })),
    );
  }
  return sheet.finish();
}

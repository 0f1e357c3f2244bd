import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { Say } from "../../shared/words/say.ts";
import { LINE, PAGE, THIN, WIDTH } from "./look.ts";
import type { Sheet } from "./sheet.ts";
import { printWords } from "./words.ts";

interface DrillLike {
  title: string;
  cards: Readonly<Record<Post, readonly { words: string; withinS: number | null }[]>>;
  source: { text: string };
}

const PAD = 5;
const SIZE = 8.5;

/**
 * Draws one drill: a column per post with numbered steps, and the source below. A drill never breaks across pages.
 */
export function drawDrill(sheet: Sheet, drill: DrillLike, say: Say): void {
  const print = printWords(say.language);
  const width = WIDTH / POSTS.length;
  const room = width - 2 * PAD;
  const steps = POSTS.map((post) =>
    drill.cards[post].map(
      ({ words, withinS }, i) => `${i + 1}  ${withinS === null ? words : print.within(words, withinS)}`,
    ),
  );
  const heightOf = (list: readonly string[]) =>
    list.reduce((sum, text) => sum + sheet.heightOf(text, room, { size: SIZE }) + 3, 0);
  const body = Math.max(...steps.map(heightOf)) + 2 * PAD + 12;
  const source = sheet.heightOf(drill.source.text, WIDTH, { size: 7 });
  sheet.need(20 + body + source + 8);
  sheet.y += 4;
  sheet.write(drill.title, PAGE.left, sheet.y, { face: "bold", size: 10 });
  sheet.y += 15;
  POSTS.forEach((post, i) => {
    const x = PAGE.left + i * width;
    sheet.box(x, sheet.y, width, body, "ink", THIN);
    sheet.write(say.post(post), x + PAD, sheet.y + PAD, { face: "bold", size: 8 });
    let y = sheet.y + PAD + 12;
    for (const text of steps[i] ?? []) {
      sheet.write(text, x + PAD, y, { size: SIZE }, room);
      y += sheet.heightOf(text, room, { size: SIZE }) + 3;
    }
    if (steps[i]?.length === 0) sheet.write(print.nothingToDo, x + PAD, y, { size: SIZE, tone: "soft" });
  });
  sheet.box(PAGE.left, sheet.y, WIDTH, body, "ink", LINE);
  sheet.y += body + 3;
  sheet.write(drill.source.text, PAGE.left, sheet.y, { size: 7, tone: "soft" }, WIDTH);
  sheet.y += source + 5;
}

import type { Brief } from "../../shared/paper/brief.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { isRehearsedAircraft } from "../../shared/protocol/rehearsal.ts";
import { briefWords } from "../../shared/words/brief.ts";
import { SPOKEN } from "../../shared/words/spoken.ts";
import { drawDrill } from "./drillCard.ts";
import { Sheet } from "./sheet.ts";
import { drawSignals } from "./signalList.ts";
import { table } from "./table.ts";
import { titleBlock } from "./titleBlock.ts";
import { printWords } from "./words.ts";

/** Returns the brief as a PDF. The same brief and `now` give the same bytes. */
export async function printBrief(brief: Brief, now: number): Promise<Buffer> {
  const { type } = brief;
  const say = SPOKEN[brief.language];
  const fixed = briefWords(brief.language);
  const all = printWords(brief.language);
  const words = all.brief;
  const back = brief.purpose === "return" ? all.returned : null;
  const sheet = new Sheet({
    title: (back ? back.briefTitle : words.title)(brief.aircraft),
    about: `${brief.aircraft}, ${brief.place}`,
    now,
    caution: brief.caution,
    language: brief.language,
    rehearsal: isRehearsedAircraft(brief.aircraft),
  });
  titleBlock(sheet, [
    [
      {
        label: back?.briefLabel ?? words.label,
        value: brief.aircraft,
        share: 0.4,
        size: 22,
        face: "monoBold",
      },
      {
        label: back?.order ?? all.order,
        value: brief.order.join("-"),
        share: 0.6,
        size: 22,
        face: "monoBold",
      },
    ],
    [
      { label: all.place, value: brief.place, share: 0.4 },
      { label: all.type, value: all.version(type.name, type.version), share: 0.6 },
    ],
    [
      { label: all.stage, value: brief.stage, share: 0.2 },
      {
        label: all.approvedBy,
        value: type.approvedBy ?? all.notApproved,
        share: 0.4,
        tone: type.approvedBy ? "ink" : "danger",
      },
      { label: words.author, value: type.author, share: 0.4 },
    ],
    [{ label: all.session, value: brief.session, share: 1, face: "mono", size: 8 }],
  ]);
  sheet.para(type.note, { size: 8, tone: "soft" });

  sheet.heading(words.crew);
  await table(
    sheet,
    [
      { head: all.post, share: 0.16, face: "bold" },
      { head: words.holds, share: 0.2 },
      { head: words.planned, share: 0.18 },
      { head: words.briefed, share: 0.1 },
      { head: words.others, share: 0.36 },
    ],
    brief.crew.map((c) => ({
      cells: [
        say.post(c.post),
        c.holder ?? (c.needed ? words.nobody : words.notNeeded),
        c.planned,
        c.holder === null ? null : c.briefed ? words.yes : words.notYet,
        c.others.join(", "),
      ],
      tone: c.needed && c.holder === null && c.planned === null ? "danger" : "ink",
    })),
  );

  sheet.heading(words.orderWhy);
  await table(
    sheet,
    [
      { head: all.engine, share: 0.1, face: "monoBold", size: 16 },
      { head: words.stands, share: 0.25 },
      { head: words.why, share: 0.65 },
    ],
    brief.starts.map((s) => ({ cells: [String(s.n), s.stands, `${s.reasons.join("; ")}.`] })),
  );
  sheet.para((brief.usualOrder ? words.usual : words.notUsual)(brief.orderSource), {
    size: 8,
    tone: brief.usualOrder ? "soft" : "warning",
  });

  if (back) {
    sheet.heading(back.engines);
    sheet.list(brief.stopping);
  }
  sheet.heading(words.power);
  sheet.list(brief.power);
  if (brief.openDefects.length > 0) {
    sheet.heading(words.defects, "danger");
    sheet.list(brief.openDefects, { tone: "danger" });
  }
  if (brief.notes.length > 0) {
    sheet.heading(words.notes);
    sheet.list(brief.notes);
  }

  if (brief.equipment.length > 0) {
    sheet.heading(all.equipment);
    sheet.list(brief.equipment);
  }
  if (brief.near.length > 0) {
    sheet.heading(all.near);
    sheet.list(brief.near);
    sheet.list(brief.tooNear, { tone: "danger" });
  }

  sheet.heading(all.stopWords, "danger", 150);
  await table(
    sheet,
    [
      { head: all.say, share: 0.3, face: "monoBold", size: 11 },
      { head: all.means, share: 0.7, size: 9 },
    ],
    fixed.stops.map((w) => ({ cells: [w.say, w.means] })),
  );
  sheet.para(`${fixed.anyoneStops} ${brief.stopTimes}`);

  sheet.heading(words.signals, "ink", 120);
  await drawSignals(sheet, brief.signals, brief.language);
  sheet.heading(words.fail);
  sheet.list(fixed.backUp);

  sheet.heading(words.fire, "danger", 140);
  sheet.list(brief.fire);
  await table(
    sheet,
    [
      { head: words.side, share: 0.2, face: "bold" },
      { head: words.engines, share: 0.2, face: "monoBold", size: 12 },
      { head: words.comes, share: 0.6 },
    ],
    brief.fireSides.map((s) => ({ cells: [s.side, s.engines.join(" "), s.approach] })),
  );
  for (const drill of brief.fireCards) drawDrill(sheet, drill, say);
  if (brief.fireCards.length === 0) sheet.para(words.noCards, { tone: "danger" });

  sheet.heading(words.out);
  sheet.list(fixed.escape);
  await table(
    sheet,
    [
      { head: back?.stop ?? words.start, share: 0.1, face: "monoBold", size: 14 },
      { head: words.way, share: 0.9, size: 9 },
    ],
    brief.escapes.map((e) => ({ cells: [String(e.engine), e.words] })),
  );
  sheet.para(brief.receptacle);

  sheet.heading(words.chocks);
  sheet.list(brief.chockRule);
  sheet.heading(words.handOver);
  sheet.list(fixed.handOver);
  sheet.heading(words.spectators);
  sheet.list([brief.whoStops, ...fixed.spectators]);

  sheet.heading(words.was, "ink", 120);
  await table(
    sheet,
    [
      { head: all.post, share: 0.2, face: "bold", size: 11 },
      { head: words.name, share: 0.35, size: 11 },
      { head: all.time, share: 0.15 },
      { head: words.signature, share: 0.3 },
    ],
    POSTS.map((post) => {
      const row = brief.crew.find((c) => c.post === post);
      return { cells: [say.post(post), `${row?.holder ?? row?.planned ?? ""} `, " ", " "] };
    }),
  );
  return sheet.finish();
}

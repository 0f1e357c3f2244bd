import type { Brief } from "../../shared/brief/brief.ts";
import {
  ANYONE_STOPS,
  BACK_UP_SIGNALS,
  ESCAPE_RULE,
  FIRE_RULE,
  HAND_OVER_RULE,
  SPECTATOR_RULE,
  STOP_WORDS,
} from "../../shared/brief/fixedWords.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { SPOKEN } from "../../shared/words/spoken.ts";
import { drawDrill } from "./drillCard.ts";
import { Sheet } from "./sheet.ts";
import { drawSignals } from "./signalList.ts";
import { table } from "./table.ts";
import { titleBlock } from "./titleBlock.ts";

/** The brief as a PDF. The same brief and `now` give the same bytes. */
export async function printBrief(brief: Brief, now: number): Promise<Buffer> {
  const { type } = brief;
  const say = SPOKEN[brief.language];
  const sheet = new Sheet({
    title: `Start brief ${brief.aircraft}`,
    about: `${brief.aircraft}, ${brief.place}`,
    now,
    caution: brief.caution,
  });
  titleBlock(sheet, [
    [
      { label: "Start brief", value: brief.aircraft, share: 0.4, size: 22, face: "monoBold" },
      { label: "Order of starting", value: brief.order.join("-"), share: 0.6, size: 22, face: "monoBold" },
    ],
    [
      { label: "Place", value: brief.place, share: 0.4 },
      { label: "Aircraft type", value: `${type.name}, version ${type.version}`, share: 0.6 },
    ],
    [
      { label: "Stage", value: brief.stage, share: 0.2 },
      {
        label: "Type approved by",
        value: type.approvedBy ?? "NOT APPROVED",
        share: 0.4,
        tone: type.approvedBy ? "ink" : "danger",
      },
      { label: "Figures by", value: type.author, share: 0.4 },
    ],
    [{ label: "Session", value: brief.session, share: 1, face: "mono", size: 8 }],
  ]);
  sheet.para(type.note, { size: 8, tone: "soft" });

  sheet.heading("Crew");
  await table(
    sheet,
    [
      { head: "Post", share: 0.16, face: "bold" },
      { head: "Holds it", share: 0.2 },
      { head: "Planned", share: 0.18 },
      { head: "Briefed", share: 0.1 },
      { head: "May be handed over to", share: 0.36 },
    ],
    brief.crew.map((c) => ({
      cells: [
        say.post(c.post),
        c.holder ?? (c.needed ? "NOBODY" : "not needed"),
        c.planned,
        c.holder === null ? null : c.briefed ? "yes" : "not yet",
        c.others.join(", "),
      ],
      tone: c.needed && c.holder === null && c.planned === null ? "danger" : "ink",
    })),
  );

  sheet.heading("Order, and why");
  await table(
    sheet,
    [
      { head: "Engine", share: 0.1, face: "monoBold", size: 16 },
      { head: "Stands", share: 0.25 },
      { head: "Why here", share: 0.65 },
    ],
    brief.starts.map((s) => ({ cells: [String(s.n), s.stands, `${s.reasons.join("; ")}.`] })),
  );
  sheet.para(
    brief.usualOrder
      ? `The type's usual order: ${brief.orderSource}`
      : `Not the type's usual order, which is kept for this reason: ${brief.orderSource}`,
    { size: 8, tone: brief.usualOrder ? "soft" : "warning" },
  );

  sheet.heading("Power");
  sheet.list(brief.power);
  if (brief.openDefects.length > 0) {
    sheet.heading("Open defects", "danger");
    sheet.list(brief.openDefects, { tone: "danger" });
  }

  sheet.heading("Words that stop everything", "danger", 150);
  await table(
    sheet,
    [
      { head: "Say", share: 0.3, face: "monoBold", size: 11 },
      { head: "It means", share: 0.7, size: 9 },
    ],
    STOP_WORDS.map((w) => ({ cells: [w.say, w.means] })),
  );
  sheet.para(`${ANYONE_STOPS} ${brief.stopTimes}`);

  sheet.heading("Signals", "ink", 120);
  await drawSignals(sheet, brief.signals);
  sheet.heading("When signals fail");
  sheet.list(BACK_UP_SIGNALS);

  sheet.heading("Fire plan", "danger", 140);
  sheet.list(FIRE_RULE);
  await table(
    sheet,
    [
      { head: "Side", share: 0.2, face: "bold" },
      { head: "Engines", share: 0.2, face: "monoBold", size: 12 },
      { head: "The guard comes", share: 0.6 },
    ],
    brief.fireSides.map((s) => ({ cells: [s.side, s.engines.join(" "), s.approach] })),
  );
  for (const drill of brief.fireCards) drawDrill(sheet, drill, say);
  if (brief.fireCards.length === 0)
    sheet.para("This type has no fire cards: the approved manual's apply.", { tone: "danger" });

  sheet.heading("Way out");
  sheet.list(ESCAPE_RULE);
  await table(
    sheet,
    [
      { head: "Start", share: 0.1, face: "monoBold", size: 14 },
      { head: "The guard's way out", share: 0.9, size: 9 },
    ],
    brief.escapes.map((e) => ({ cells: [String(e.engine), e.words] })),
  );
  sheet.para(brief.receptacle);

  sheet.heading("Chocks");
  sheet.list(brief.chockRule);
  sheet.heading("Handing over a post");
  sheet.list(HAND_OVER_RULE);
  sheet.heading("Spectators");
  sheet.list([brief.whoStops, ...SPECTATOR_RULE]);

  sheet.heading("I was briefed", "ink", 120);
  await table(
    sheet,
    [
      { head: "Post", share: 0.2, face: "bold", size: 11 },
      { head: "Name", share: 0.35, size: 11 },
      { head: "Time", share: 0.15 },
      { head: "Signature", share: 0.3 },
    ],
    POSTS.map((post) => {
      const row = brief.crew.find((c) => c.post === post);
      return { cells: [say.post(post), `${row?.holder ?? row?.planned ?? ""} `, " ", " "] };
    }),
  );
  return sheet.finish();
}

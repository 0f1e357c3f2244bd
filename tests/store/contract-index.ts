import { describe, expect, it } from "vitest";
import type { IndexEntry, Position, SearchIndex, Wanted } from "../../server/store/search-index.ts";
import { folded } from "../../shared/history/written/fold.ts";

export const entry = (
  session: string,
  seq: number,
  text: string,
  more: Partial<IndexEntry> = {},
): IndexEntry => ({
  ...{ session, seq, part: 0, at: 1_000 + seq, aircraft: "CH-TST", kind: "note" },
  tokens: folded(text),
  body: JSON.stringify({ text, quote: "'\"\\" }),
  ...more,
});

export const wanted = (more: Partial<Wanted> = {}): Wanted => ({
  ...{ terms: [], aircraft: null, kind: null, from: null, to: null, before: null, limit: 100 },
  ...more,
});

export const terms = (...prefixes: string[]) => prefixes.map((prefix) => ({ prefix, or: [] }));

/** Returns everything an index holds, a page of `limit` at a time. */
export async function everything(
  index: SearchIndex,
  limit: number,
  more: Partial<Wanted> = {},
): Promise<IndexEntry[]> {
  const all: IndexEntry[] = [];
  for (let before: Position | null = null; ; before = all.at(-1) ?? null) {
    const page = await index.find(wanted({ ...more, before, limit }));
    all.push(...page);
    if (page.length < limit) return all;
  }
}

/** Tests what every search index must do. */
export function searchIndexContract(
  name: string,
  open: () => Promise<{ index: SearchIndex; done(): void }>,
): void {
  const using = async (work: (index: SearchIndex) => Promise<void>) => {
    const { index, done } = await open();
    try {
      await work(index);
    } finally {
      await index.close();
      done();
    }
  };

  describe(name, () => {
    it("[HIS-28] finds what has every word's beginning, whatever its case and accents, the newest first", () =>
      using(async (index) => {
        await index.put("s-1", 0, 9, [
          entry("s-1", 2, "Cowling latch is loose"),
          entry("s-1", 4, "Cowl flap motor: LOOSE wire"),
          entry("s-1", 6, "Válvula de aceite; ¿motor 3?"),
          entry("s-1", 8, ""),
        ]);
        const found = async (...prefixes: string[]) =>
          (await index.find(wanted({ terms: terms(...prefixes) }))).map(({ seq }) => seq);
        expect(await found("cowl")).toEqual([4, 2]);
        expect(await found("cowl", "loo")).toEqual([4, 2]);
        expect(await found("loose", "mot")).toEqual([4]);
        expect(await found("valvula")).toEqual([6]);
        expect(await found("m")).toEqual([6, 4]);
        expect(await found("owling")).toEqual([]);
        expect(await found()).toEqual([8, 6, 4, 2]);
        expect((await index.find(wanted({ terms: terms("latch") })))[0]).toEqual(
          entry("s-1", 2, "Cowling latch is loose"),
        );
      }));

    it("[HIS-29] finds a person by a token that no word of a question begins", () =>
      using(async (index) => {
        await index.put("s-1", 0, 1, [entry("s-1", 1, "", { tokens: ["_abc", "person"] })]);
        const term = (prefix: string, ...or: string[]) => index.find(wanted({ terms: [{ prefix, or }] }));
        expect(await term("ada", "_abc", "_def")).toHaveLength(1);
        expect(await term("ada", "_ab")).toHaveLength(0);
        expect(await term("abc")).toHaveLength(0);
      }));

    it("[HIS-28] narrows by aircraft, kind and time, and pages without a gap or a repeat", () =>
      using(async (index) => {
        const many = (session: string, aircraft: string) =>
          Array.from({ length: 12 }, (_, i) => {
            const [seq, part] = [Math.floor(i / 2) + 1, i % 2];
            const kind = part === 0 ? ("note" as const) : ("defect" as const);
            return entry(session, seq, "smoke", { part, kind, aircraft, at: 1_000 + (seq % 3) });
          });
        await index.put("s-1", 0, 6, many("s-1", "CH-TST"));
        await index.put("s-2", 0, 6, many("s-2", "CH-TWO"));
        const whole = await everything(index, 1_000);
        expect(whole).toHaveLength(24);
        expect(whole.map(({ at }) => at)).toEqual(whole.map(({ at }) => at).sort((a, b) => b - a));
        for (const limit of [1, 5, 7])
          expect(await everything(index, limit, { terms: terms("smok") })).toEqual(whole);
        const only = { aircraft: "CH-TWO", kind: "defect" as const, from: 1_001, to: 1_002 };
        expect(await everything(index, 3, only)).toEqual(
          whole.filter((e) => e.aircraft === "CH-TWO" && e.kind === "defect" && e.at === 1_001),
        );
      }));

    it("[HIS-30] takes up each event once, whoever was first, and forgets a session whole", () =>
      using(async (index) => {
        const one = [entry("s-1", 1, "one")];
        await Promise.all([index.put("s-1", 0, 3, one), index.put("s-1", 0, 3, one)]);
        await index.put("s-1", 1, 4, [entry("s-1", 4, "late")]);
        await index.put("s-1", 3, 5, [entry("s-1", 5, "two")]);
        await index.put("s-2", 0, 1, [entry("s-2", 1, "other")]);
        expect(await index.heads()).toEqual(
          new Map([
            ["s-1", 5],
            ["s-2", 1],
          ]),
        );
        expect((await everything(index, 10)).map(({ seq }) => seq)).toEqual([5, 1, 1]);
        await index.forget("s-1");
        expect(await index.heads()).toEqual(new Map([["s-2", 1]]));
        expect(await index.find(wanted({ terms: terms("two") }))).toEqual([]);
        await index.put("s-1", 0, 1, one);
        expect((await index.find(wanted({ terms: terms("one") }))).length).toBe(1);
      }));

    it("[HIS-42] keeps the starts of a session, the last ones put in, and forgets them with it", () =>
      using(async (index) => {
        const kept = (session: string, headHash: string) => ({
          ...{ session, headHash, body: JSON.stringify({ rows: [], quote: `'"\\ ${headHash}` }) },
        });
        expect(await index.startsOf(["s-1"])).toEqual([]);
        for (const one of [kept("s-1", "a"), kept("s-2", "b"), kept("s-1", "c")]) await index.keepStarts(one);
        const all = await index.startsOf(["s-2", "s-3", "s-1"]);
        expect(all.sort((a, b) => (a.session < b.session ? -1 : 1))).toEqual([
          kept("s-1", "c"),
          kept("s-2", "b"),
        ]);
        expect(await index.startHeads(["s-1", "s-3"])).toEqual(new Map([["s-1", "c"]]));
        expect((await index.startHeads()).size).toBe(2);
        expect(await index.heads()).toEqual(new Map());
        await index.forget("s-1");
        expect([...(await index.startHeads()).keys()]).toEqual(["s-2"]);
      }));
  });
}

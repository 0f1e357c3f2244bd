import { POSTS } from "../../../shared/protocol/posts.ts";
import { dayWords } from "../../../shared/words/dates.ts";
import { outcomesOf } from "../../../shared/words/outcomes.ts";
import type { Say } from "../../../shared/words/say.ts";
import type { HouseHistory } from "../../net/history.ts";
import { useHouseStartsWords } from "../../words/houseStarts.ts";
import { useWords } from "../../words/words.ts";
import { BarTable } from "./BarTable.tsx";

/** The starts by week, and what delayed them. */
export function DelayTables({ told }: { told: HouseHistory }) {
  const words = useHouseStartsWords();
  const { say } = useWords();
  const outcomes = outcomesOf(say);
  const first = told.weeks.findIndex((w) => w.starts + w.unstarted > 0);
  const weeks = first < 0 ? [] : told.weeks.slice(first).reverse();
  return (
    <>
      <BarTable
        title={words.byWeek}
        of={words.week}
        columns={[words.startsAs, words.caught, words.notStarted]}
        rows={weeks.map((w) => ({
          key: String(w.from),
          name: dayWords(w.from, say.language),
          figures: [w.starts, w.caught, w.unstarted].map(String),
          size: w.starts,
        }))}
      />
      <BarTable
        title={words.byPost}
        of={words.post}
        columns={[words.times, words.holds, words.held, words.refused]}
        rows={told.posts.map((p) => ({
          key: String(p.post),
          name: say.post(p.post),
          figures: [String(p.holds + p.refusals), String(p.holds), p.heldMin.toFixed(1), String(p.refusals)],
          size: p.holds + p.refusals,
        }))}
      />
      <BarTable
        title={words.byHold}
        of={words.reason}
        columns={[words.times, words.held]}
        rows={told.holds.map((h) => ({
          key: String(h.reason),
          name: reasonOf(h.reason, words, say),
          figures: [String(h.times), h.heldMin.toFixed(1)],
          size: h.times,
        }))}
      />
      <BarTable
        title={words.byEquipment}
        said={[words.equipmentIs]}
        of={words.piece}
        columns={[words.times, words.startsAs, words.holds, words.held, words.refused, words.perStart]}
        rows={told.equipment.map((e) => ({
          key: e.label,
          name: e.label,
          figures: [
            ...[e.holds + e.refusals, e.starts, e.holds].map(String),
            e.heldMin.toFixed(1),
            String(e.refusals),
            e.perStart?.toFixed(2) ?? "",
          ],
          size: e.holds + e.refusals,
        }))}
      />
      <BarTable
        title={words.byCondition}
        of={words.condition}
        columns={[words.times]}
        rows={told.conditions.map((c) => ({
          key: c.condition,
          name: say.conditionName(c.condition),
          figures: [String(c.times)],
          size: c.times,
        }))}
      />
      <BarTable
        title={words.byRefusal}
        of={words.reason}
        columns={[words.times]}
        rows={told.refusals.map((r) => ({
          key: r.reason,
          name: outcomes.anyRefusal(r.reason),
          figures: [String(r.times)],
          size: r.times,
        }))}
      />
    </>
  );
}

/** Returns the reason that a person wrote, or the posts whose silence made the system hold. */
function reasonOf(reason: string | null, words: ReturnType<typeof useHouseStartsWords>, say: Say): string {
  if (reason === null) return words.noReason;
  const [first, ...named] = reason.split(" ");
  const silent = POSTS.filter((post) => named.includes(post));
  const bySystem = first === "silent" && silent.length > 0 && silent.length === named.length;
  return bySystem ? words.silent(say.posts(silent)) : reason;
}

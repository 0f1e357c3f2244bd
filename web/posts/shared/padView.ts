import { type Choice, choice, type Offer, offer } from "../../../shared/asks/ask.ts";
import { enginesSeen } from "../../../shared/models/facing.ts";
import { AS_READ } from "../../../shared/models/unitChoice.ts";
import type { RunUpItem } from "../../../shared/protocol/commands.ts";
import { reading } from "../../../shared/readings/ask.ts";
import { CHECK_ITEMS } from "../../../shared/runUp/checkItems.ts";
import type { RunUpFault } from "../../../shared/runUp/fault.ts";
import { runs } from "../../../shared/runUp/runs.ts";
import { itemGauge, releaseVerdict, runUpFault } from "../../../shared/runUp/verdict.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { outcomesOf } from "../../../shared/words/outcomes.ts";
import type { AnswerKey } from "../../ui/askView.ts";
import type { PadId } from "../../ui/padId.ts";
import type { Outcome, PadCell, PadRow, PadView } from "../../ui/padView.ts";
import { answerKey } from "./askViews.ts";
import { figureSpec } from "./figures.ts";
import type { Panel } from "./model.ts";

type Seen = Pick<Panel, "state" | "now" | "words">;

/** Items whose figure the crew sets alike on every engine before the check. Common practice, no source. */
const SET_ALIKE: readonly RunUpItem[] = ["powerRpm", "magnetoBoth", "featherBefore"];

/** The item of the same engine that an item's figure is compared with. */
const AGAINST: Readonly<Partial<Record<RunUpItem, RunUpItem>>> = {
  magnetoLeft: "magnetoBoth",
  magnetoRight: "magnetoBoth",
  featherLowest: "featherBefore",
  featherAfter: "featherBefore",
};

/** Returns the figures of a pad: every engine that runs, with the answers of those that are asked for. */
export function padView(panel: Seen, id: PadId, answers: readonly AnswerKey[]): PadView {
  const { state } = panel;
  const engines = enginesSeen(state.engines.length, "forward").filter((n) =>
    state.engines.some((e) => e.n === n && runs(e)),
  );
  const rows = rowsOf(panel, id, engines, answers);
  return {
    engines,
    rows,
    byEngine: id === "magneto" || id === "feather",
    faults: faultsOf(state, id).map((f) => faultView(panel, f)),
  };
}

/** Returns what became of a figure; null when this device no longer knows. */
export function outcomeOf({ state, sent, words: { say, text } }: Panel, id: string): Outcome | null {
  const found = sent.find((s) => s.id === id);
  switch (found?.status.is) {
    case undefined:
      return null;
    case "sending":
      return { is: "sending" };
    case "recorded":
      return { is: "recorded" };
    case "refused":
      return { is: "not", words: outcomesOf(say).refusal(found.status.refusal, AS_READ, state.type) };
    case "failed":
      return { is: "not", words: text.net.wire[found.status.error] };
    case "lapsed":
      return { is: "not", words: text.app.notRecorded };
  }
}

function rowsOf(panel: Seen, id: PadId, engines: readonly number[], answers: readonly AnswerKey[]): PadRow[] {
  const { state, words } = panel;
  if (id !== "warmUp" && id !== "gauges")
    return CHECK_ITEMS[id].map((item: RunUpItem) => ({
      id: item,
      label: words.say.runUpItem(item),
      setAlike: SET_ALIKE.includes(item),
      against: AGAINST[item] ?? null,
      cells: engines.flatMap((n) => cell(panel, itemChoice(state, n, item), n, answers)),
    }));
  const asked = new Set(
    answers.flatMap((a) => (a.choice.draft.type === "reading" ? a.choice.draft.gauge : [])),
  );
  return state.type.gauges
    .filter((g) => asked.has(g.id))
    .map((g) => ({
      id: g.id,
      label: g.name,
      setAlike: false,
      against: null,
      cells: (g.perEngine ? engines : [null]).flatMap((n) =>
        cell(panel, reading(state, g.id, n), n, answers),
      ),
    }));
}

function itemChoice({ type }: SessionState, engine: number, item: RunUpItem): Choice {
  const unit = itemGauge(type, item)?.unit ?? "count";
  const draft = { type: "recordRunUp", engine, item } as const;
  return choice("readRunUp", "yes", draft, { is: "figure", field: "reading", unit });
}

function cell(panel: Seen, of: Offer, engine: number | null, answers: readonly AnswerKey[]): PadCell[] {
  const spec = figureSpec(panel.state, of, panel.now, panel.words);
  const id = cellId(of);
  return spec ? [{ id, engine, spec, answer: answers.find((a) => cellId(a.choice) === id) ?? null }] : [];
}

const cellId = ({ draft }: Offer): string => {
  if (draft.type === "recordRunUp") return `${draft.item}:${draft.engine}`;
  return draft.type === "reading" ? `${draft.gauge}:${draft.engine ?? 0}` : draft.type;
};

/** A defect of a failed check bars the next start until somebody has dealt with it. */
function faultView({ state, words: { say } }: Seen, fault: RunUpFault): PadView["faults"][number] {
  const words = outcomesOf(say).runUpFault(fault, state.type);
  const of = fault.engine === null ? {} : { engine: fault.engine };
  const draft = { type: "writeDefect", words, barsStart: true, ...of } as const;
  return {
    words,
    defect: answerKey(state, offer("no", draft), say.choice("writeDefect", fault.engine), `defect/${words}`),
  };
}

/** Returns what failed in a check or at a gauge; a figure that is only missing is no fault yet. */
function faultsOf(state: SessionState, id: PadId) {
  if (id === "warmUp") return [];
  return (releaseVerdict(state)?.faults ?? [])
    .map(runUpFault)
    .filter((f) => f.what !== "notDone" && f.what !== "notRead")
    .filter(({ of }) => ("check" in of ? of.check === id : id === "gauges"));
}

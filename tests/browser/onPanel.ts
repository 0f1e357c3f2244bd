/** The entry that is open on a panel, with what a person needs to fill it in. */
export type EntrySeen =
  /** One touch goes on. */
  | { is: "key"; key: string }
  | { is: "engine" }
  | { is: "words" }
  | { is: "weather" }
  /** The figure shown, and the name of the instrument beside it. */
  | { is: "figure"; label: string; value: string }
  /** Figures of several instruments, which are still blank. */
  | { is: "pad"; blank: { at: number; label: string }[] };

/** What a person sees on their panel at a glance. */
export interface PanelSeen {
  stage: string;
  /** The sentence of the ask in front; empty when nothing is asked. */
  ask: string;
  engine: number | null;
  /** Whether it presses: a danger or an alert. */
  presses: boolean;
  /** The keys that answer it and take a touch now: their words, and whether each says no. */
  answers: { words: string; saysNo: boolean }[];
  entry: EntrySeen | null;
  /** Asks that wait behind it. */
  queued: number;
}

/** Returns what the panel of this page shows. It runs in the page. */
export function onPanel(): PanelSeen {
  const text = (of: ParentNode | null, what: string) => of?.querySelector(what)?.textContent?.trim() ?? "";
  const all = (of: ParentNode | null, what: string) => [...(of?.querySelectorAll<HTMLElement>(what) ?? [])];
  const ask = document.querySelector(".ask:not(.ask-idle)");
  const number = text(ask, ".ask-number");
  const entry = ask?.querySelector(".entry") ?? null;
  const pad = ask?.querySelector(".pad") ?? null;
  const entered = (): EntrySeen | null => {
    if (ask?.querySelector(".entry-before-sending"))
      return { is: "key", key: ".ask .entry-before-sending .answer[data-tone=no]" };
    if (pad) {
      const blank = all(pad, ".pad-cell").flatMap((cell, at) => {
        const name = cell.getAttribute("aria-label") ?? "";
        return cell.matches(":disabled") || text(cell, "output") !== "–" ? [] : [{ at, label: name }];
      });
      return { is: "pad", blank };
    }
    if (!entry) return null;
    if (entry.matches(".blades-entry")) return { is: "key", key: ".ask .entry .answer[data-tone=yes]" };
    if (entry.querySelector(".weather-row")) return { is: "weather" };
    if (entry.querySelector(".number-key")) return { is: "engine" };
    if (entry.querySelector("input[name=reason]")) return { is: "words" };
    if (entry.querySelector(".entry-number"))
      return {
        is: "figure",
        label: entry.getAttribute("aria-label") ?? "",
        value: text(entry, ".entry-number"),
      };
    return null;
  };
  const keys = entry || pad ? [] : all(ask, ":scope > .answers > .answer:enabled");
  return {
    stage: text(document, ".title-stage strong"),
    ask: text(ask, "h2"),
    engine: number === "" ? null : Number(number),
    presses: ["danger", "alert"].includes(ask?.getAttribute("data-weight") ?? ""),
    answers: keys.map((e) => ({ words: e.textContent ?? "", saysNo: e.dataset.tone === "no" })),
    entry: entered(),
    queued: document.querySelectorAll(".queue-row").length,
  };
}

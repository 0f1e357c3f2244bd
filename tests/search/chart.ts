import type { SessionEvent } from "../../shared/protocol/events.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { Step } from "../../shared/session/step.ts";
import { START } from "./model.ts";
import type { Move } from "./moves.ts";

/** One step of a trace. */
export interface Taken {
  move: Move;
  now: number;
  step: Step | null;
}

const COLUMNS = ["cockpit", "fireGuard", "groundPower", "supervisor", "observer"] as const;
const WIDTH = 14;
const MARGIN = 10;
const placeOf = (post: Post | null) => COLUMNS.indexOf(post ?? "observer") * WIDTH + WIDTH / 2;

/**
 * Returns a trace as plain text: one column per post, an arrow per signal from its sender to its addressees, time
 * downward. `x` ends a refused signal, `o` marks an act addressed to nobody, words at the left edge are what time
 * caused.
 */
export function chart(
  root: string,
  start: SessionState,
  taken: readonly Taken[],
  broken: { id: string; text: string },
) {
  const lines = [
    `Breaks ${broken.id}: ${broken.text}`,
    `From "${root}" in ${taken.length} ${taken.length === 1 ? "step" : "steps"}`,
    "",
    " ".repeat(MARGIN) + COLUMNS.map((c) => c.padStart((WIDTH + c.length) / 2).padEnd(WIDTH)).join(""),
  ];
  let state = start;
  for (const { move, now, step } of taken) {
    const at = `${((now - START) / 1000).toFixed(3).padStart(MARGIN - 3)}s `;
    if (move.is === "wait") lines.push(`${at} ${row([], "")}  time passes`);
    else if (move.is === "slip") lines.push(`${at} ${row([], "")}  the clock is set back unnoticed`);
    else if (!step) lines.push(`${at} ${row([], "")}  ${wordsOf(move)}: the core throws`);
    else {
      const [first, ...rest] = step.events;
      if (!first) lines.push(`${at} ${row([], "")}  ${wordsOf(move)}: nothing`);
      else lines.push(`${at} ${drawn(first, state)}`);
      for (const event of rest) lines.push(`${" ".repeat(MARGIN - 1)} ${drawn(event, state)}`);
      state = step.state;
    }
  }
  return lines.map((l) => l.trimEnd()).join("\n");
}

function wordsOf(move: Taken["move"]): string {
  return move.is === "act" ? `${move.by.id} ${JSON.stringify(move.action)}` : move.is;
}

function drawn(event: SessionEvent, before: SessionState): string {
  const { fact, actor } = event;
  const from = actor.kind === "person" ? placeOf(actor.post) : null;
  const who = actor.kind === "person" ? `${actor.name} (${actor.device})` : "server";
  switch (fact.type) {
    case "sent":
      return row(
        arrow(from, POSTS.filter((p) => actor.kind !== "person" || p !== actor.post).map(placeOf), ">"),
        `${fact.kind}${figure(fact)} #${event.seq}  ${who}`,
      );
    case "answered": {
      const signal = before.signals.find((s) => s.id === fact.signal);
      const to = signal ? [placeOf(signal.from)] : [];
      return row(arrow(from, to, ">"), `${fact.answer}${figure(fact)} to #${fact.signal}  ${who}`);
    }
    case "refused": {
      const { type, ...action } = fact.action;
      const words = `${type} ${JSON.stringify(action)} refused: ${fact.refusal.reason}`;
      return row(arrow(from, [], "x"), `${words}  ${who}`);
    }
    default: {
      const { type, ...more } = fact as { type: string; basis?: unknown; unmet?: { id: string }[] };
      const unmet = more.unmet ? { unmet: more.unmet.map((u) => u.id) } : {};
      return row(arrow(from, [], "o"), `${type} ${JSON.stringify({ ...more, ...unmet })}  ${who}`);
    }
  }
}

function figure(fact: { engine?: number | undefined; ref?: number | undefined }): string {
  return (
    (fact.engine === undefined ? "" : ` ${fact.engine}`) + (fact.ref === undefined ? "" : ` of #${fact.ref}`)
  );
}

type Stroke = [place: number, mark: string];

function arrow(from: number | null, to: readonly number[], head: string): Stroke[] {
  if (from === null) return [];
  if (to.length === 0) return [[from, head]];
  const low = Math.min(from, ...to);
  const high = Math.max(from, ...to);
  const line: Stroke[] = [];
  for (let i = low; i <= high; i += 1) line.push([i, "-"]);
  for (const end of to) line.push(end > from ? [end - 1, ">"] : [end + 1, "<"]);
  line.push([from, "*"]);
  return line;
}

function row(strokes: readonly Stroke[], words: string): string {
  const cells = " ".repeat(WIDTH * COLUMNS.length).split("");
  const bars = POSTS.map(placeOf).concat(placeOf(null));
  for (const place of bars) cells[place] = "|";
  for (const [place, mark] of strokes) if (!(mark === "-" && bars.includes(place))) cells[place] = mark;
  return `${cells.join("")}  ${words}`;
}

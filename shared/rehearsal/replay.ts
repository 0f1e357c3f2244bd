import { canonical } from "../evidence/canonical.ts";
import type { SessionEvent } from "../protocol/events.ts";
import type { Rehearsed } from "../protocol/rehearsedFact.ts";
import { beginCourse, type Course, stepCourse, stepIsBefore, tellCourse } from "./course.ts";

/** A rehearsal that was rebuilt, or why it cannot be. */
export type Rebuilt =
  | {
      ok: true;
      course: Course;
      /** Facts of the world that the record lacks, because the server stopped before they were written. */
      unrecorded: Rehearsed[];
    }
  | { ok: false; why: "noScript" | "differs" };

/** Steps of the world after which a rebuilding pauses: some tens of milliseconds of work. */
const PAUSES_AFTER = 50;

/**
 * Rebuilds a rehearsal from its record: the protocol's state from the events, the world by the same steps between them.
 * The faults and the sufferings that come out must be the recorded ones, or it is not the same world. It pauses often,
 * so that a server can do something else between.
 */
export function* rebuilding(events: readonly SessionEvent[]): Generator<void, Rebuilt> {
  const [first, ...rest] = events;
  if (first?.fact.type !== "planned") throw new Error("a record begins with its plan");
  const script = first.fact.rehearsal?.played;
  if (!script) return { ok: false, why: "noScript" };
  const stops = rest.flatMap(({ seq, fact }) =>
    fact.type === "rehearsed" && fact.said.is === "stood" ? [{ seq, steps: fact.said.steps }] : [],
  );
  // The server stopped at some time before this event, and has not said yet how many steps it had played.
  const stopped = rest.find(({ seq, fact }) => fact.type === "restarted" && seq > (stops.at(-1)?.seq ?? 0));
  const mostBefore = (seq: number): number =>
    stops.find((stop) => stop.seq >= seq)?.steps ??
    (stopped && seq >= stopped.seq ? 0 : Number.POSITIVE_INFINITY);
  let course = beginCourse(script, first);
  const brought: Rehearsed[] = [];
  const recorded: string[] = [];
  for (const event of rest) {
    const most = mostBefore(event.seq);
    while (course.steps < most && stepIsBefore(course, event.at)) {
      const played = stepCourse(course);
      course = played.course;
      brought.push(...played.facts);
      if (course.steps % PAUSES_AFTER === 0) yield;
    }
    course = tellCourse(course, event);
    if (event.fact.type === "rehearsed" && isOfTheWorld(event.fact.said))
      recorded.push(canonical(event.fact.said));
  }
  const same = recorded.every((said, i) => {
    const came = brought[i];
    return came !== undefined && canonical(came) === said;
  });
  if (!same) return { ok: false, why: "differs" };
  return { ok: true, course, unrecorded: brought.slice(recorded.length) };
}

const isOfTheWorld = (said: Rehearsed): boolean =>
  said.is === "suffered" || (said.is === "fault" && said.by === undefined);

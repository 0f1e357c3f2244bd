import { checkFile } from "../../server/evidence/check-file.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { isRehearsalId, isRehearsedAircraft } from "../../shared/protocol/rehearsal.ts";
import { trainedIn } from "../../shared/rehearsal/training.ts";
import { evolve } from "../../shared/session/evolve.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { judged } from "../adversary/judged.ts";
import { randomRun } from "../rehearsal/random.ts";
import { given } from "../spec/given.ts";

/** Every so many seeds are played a second time, to compare the bytes. */
const TWICE = 10;

/** A start that is planned. */
const START = given().state;

/** Plays these seeds and returns a line for each that is stuck, breaks a rule, leaks, or differs the second time. */
export function faultsOfRuns(first: number, count: number): string[] {
  const played = Array.from({ length: count }, (_, i) => randomRun(first + i));
  const verdicts = judged(played.map(({ text }) => [text]));
  return played.flatMap(({ seed, stuck, text }, i) => {
    const findings = verdicts[i]?.findings ?? [];
    const file = checkFile(text);
    const again = seed % TWICE === 0 ? randomRun(seed).text : text;
    const why = [
      ...(stuck === null ? [] : [stuck]),
      ...(file.ok ? [] : [file.says]),
      ...(findings.length === 0 ? [] : [JSON.stringify(findings)]),
      ...leaks(text),
      ...(again === text ? [] : ["the same seed gave other bytes"]),
    ];
    return why.length === 0 ? [] : [`seed ${seed}: ${why.join("; ")}`];
  });
}

/** Returns what of a rehearsal's export could be taken for a start. */
function leaks(text: string): string[] {
  const [manifest = "", ...lines] = text.trimEnd().split("\n");
  const { session, aircraft } = JSON.parse(manifest) as { session: string; aircraft: string };
  // The check of the file has read and replayed each line.
  const events = lines.map((body) => {
    const { prev: _prev, ...event } = JSON.parse(body) as SessionEvent & { prev: string };
    return event;
  });
  const plan = events[0]?.fact;
  return [
    ...(isRehearsalId(session) && isRehearsedAircraft(aircraft) ? [] : ["its manifest names a start"]),
    ...(plan?.type === "planned" && plan.rehearsal ? [] : ["its first event is a start's"]),
    ...(events.every((e) => isRehearsalId(e.session)) ? [] : ["an event of it is a start's"]),
    ...(trainedIn(events) === null ? ["it is no training"] : []),
    ...events.flatMap((e) => (isTakenBy(START, e) ? [`a start takes its event ${e.seq}`] : [])),
  ];
}

/** Whether a start's state takes an event in, as it stands or under the start's own number. */
function isTakenBy(start: SessionState, event: SessionEvent): boolean {
  try {
    evolve(start, { ...event, seq: start.seq + 1 });
    return true;
  } catch {
    return false;
  }
}

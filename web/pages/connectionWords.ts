import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { isPartner } from "../../shared/protocol/rehearsal.ts";
import { stagesOf } from "../../shared/protocol/stages.ts";
import type { Links } from "../../shared/protocol/wire.ts";
import { isOver, purposeOf, type SessionState } from "../../shared/session/state.ts";
import type { ConnectionView } from "../net/connectionView.ts";
import type { Me } from "../net/keep.ts";
import type { Tested } from "../senses/tested.ts";
import { seconds } from "../ui/numbers.ts";
import type { PostCell } from "../ui/TitleBlock.tsx";
import type { Words } from "../words/catalogue.ts";
import type { Text } from "../words/en/text.ts";

/**
 * Time without a message from the server after which nobody may act on the display, milliseconds: three beats of 2 s.
 */
const STALE_MS = 6_000;

/** Age of another post's link at which it counts as silent, milliseconds. */
const SILENT_MS = 8_000;

/** Returns true while what is shown is as the record has it, and what is sent is recorded. */
export function isFresh(view: ConnectionView, panelNow: number): boolean {
  return view.recording && isHeard(view, panelNow);
}

function isHeard(view: ConnectionView, panelNow: number): boolean {
  return view.phase === "live" && view.lastHeard !== null && panelNow - view.lastHeard <= STALE_MS;
}

function heard(view: ConnectionView, panelNow: number, { connection }: Text): string {
  return view.lastHeard === null ? connection.never : connection.heard(seconds(panelNow - view.lastHeard));
}

/** Returns the state of the connection in words. */
export function connectionWords(view: ConnectionView, panelNow: number, text: Text): string {
  const { connection } = text;
  switch (view.phase) {
    case "connecting":
      return connection.connecting;
    case "live":
      if (!isHeard(view, panelNow)) return connection.silent(heard(view, panelNow, text));
      return view.recording ? connection.linked : connection.notRecording;
    case "lost":
      return connection.offline(heard(view, panelNow, text));
    case "signedOut":
      return connection.signedOut;
    case "mismatch":
      return connection.tooOld;
  }
}

/** Returns words for this person's unsent messages, e.g. "three signals waiting", or null. */
export function waitingWords(outgoing: ConnectionView["outgoing"], { connection }: Text): string | null {
  const n = outgoing.filter((o) => o.status.is === "sending" || o.status.is === "lapsed").length;
  return n === 0 ? null : connection.waiting(n);
}

/** Returns the warning for a connection that is not fresh, with advice. */
export function staleWords(view: ConnectionView, panelNow: number, text: Text): string {
  if (isHeard(view, panelNow))
    return `${text.connection.notRecordingAdvice} ${text.connection.stopsStillHeard}`;
  return text.connection.stale(connectionWords(view, panelNow, text), waitingWords(view.outgoing, text));
}

/** Returns the position of the stage in its session's course, e.g. "6 of 8"; empty after the last one. */
export function stageStep(state: SessionState, { title }: Text): string {
  const steps = stagesOf(purposeOf(state));
  const i = steps.indexOf(state.stage);
  return i === -1 ? "" : title.step(i + 1, steps.length);
}

/**
 * Returns the holder of each post and the age of their link. The person's own post is marked until its device's signal
 * was tested.
 */
export function postCells(
  state: SessionState,
  links: Links | null,
  me: Me,
  mine: Post | null,
  now: number,
  connected: boolean,
  tested: Tested,
  { say, text: { connection: words, title } }: Words,
): PostCell[] {
  const over = isOver(state);
  return POSTS.map((post) => {
    const holder = state.posts[post];
    const link = links?.[post];
    const age = link?.lastHeard == null ? null : now - link.lastHeard;
    const fresh = link?.connected === true && age !== null && age < SILENT_MS;
    const linkText =
      !link || !connected
        ? words.postUnknown
        : fresh
          ? words.postLinked
          : age === null
            ? words.postNot
            : words.postSilent(seconds(age));
    const offered = state.offers[post]?.to === me.id;
    const free = holder === null && mine === null && me.mayHold.includes(post);
    const cell = {
      post,
      name: say.post(post),
      holder: holder?.name ?? null,
      mine: mine === post,
      mark: null,
    };
    if (holder && isPartner(holder.id)) return { ...cell, link: title.partner, is: "fresh", wants: null };
    // Nobody is waited for in a session that is over, and no post can be taken.
    if (over) return { ...cell, link: words.over, is: holder === null ? "vacant" : "fresh", wants: null };
    return {
      ...cell,
      mark: mine === post && (tested === "no" || tested === "asked") ? words.notTested : null,
      link: holder === null ? words.nobody : linkText,
      is: holder === null ? "vacant" : fresh || !link || !connected ? "fresh" : "silent",
      wants: offered ? words.offered : free ? words.free : null,
    };
  });
}

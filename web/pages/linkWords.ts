import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { STAGES, type Stage } from "../../shared/protocol/stages.ts";
import type { Links } from "../../shared/protocol/wire.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { say } from "../../shared/words/en.ts";
import type { Me } from "../net/keep.ts";
import type { LinkView } from "../net/link.ts";
import { seconds } from "../ui/numbers.ts";
import type { PostCell } from "../ui/TitleBlock.tsx";

/** After this long without a word from the server nothing shown may be acted on. Three beats of 2 s. */
const STALE_MS = 6_000;

/** A link to another post older than this is said as silent. */
const SILENT_MS = 8_000;

export function isFresh(view: LinkView, panelNow: number): boolean {
  return view.phase === "live" && view.lastHeard !== null && panelNow - view.lastHeard <= STALE_MS;
}

function heard(view: LinkView, panelNow: number): string {
  return view.lastHeard === null ? "never heard" : `last heard ${seconds(panelNow - view.lastHeard)} ago`;
}

/** The link in plain words. */
export function linkWords(view: LinkView, panelNow: number): string {
  switch (view.phase) {
    case "connecting":
      return "Connecting";
    case "live":
      return isFresh(view, panelNow) ? "Linked" : `Silent, ${heard(view, panelNow)}`;
    case "lost":
      return `Offline, ${heard(view, panelNow)}`;
    case "signedOut":
      return "Signed out";
    case "mismatch":
      return "This panel is too old: reload";
  }
}

const NUMBERS = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"];

/** What this person gave and nobody has, e.g. "three signals waiting"; null for nothing. */
export function waitingWords(outgoing: LinkView["outgoing"]): string | null {
  const n = outgoing.filter((o) => o.fate.is === "sending" || o.fate.is === "lapsed").length;
  if (n === 0) return null;
  return `${NUMBERS[n] ?? n} signal${n === 1 ? "" : "s"} waiting`;
}

/** What to do without a fresh link, over everything. */
export function staleWords(view: LinkView, panelNow: number): string {
  const waiting = waitingWords(view.outgoing);
  const words = `${linkWords(view, panelNow)}${waiting ? `; ${waiting}` : ""}`;
  return `${words}. Hold. What is shown may be old; use hand signals. Hold, cut and fire are kept and sent as soon as the server is heard.`;
}

/** Which step of the job, e.g. "6 of 8". */
export function stageStep(stage: Stage): string {
  const steps: Stage[] = STAGES.filter((s) => s !== "closed" && s !== "abandoned");
  const i = steps.indexOf(stage);
  return i === -1 ? "" : `${i + 1} of ${steps.length}`;
}

/** Who holds each post and how fresh their link is. */
export function postCells(
  state: SessionState,
  links: Links | null,
  me: Me,
  mine: Post | null,
  now: number,
  linked: boolean,
): PostCell[] {
  return POSTS.map((post) => {
    const holder = state.posts[post];
    const link = links?.[post];
    const age = link?.lastHeard == null ? null : now - link.lastHeard;
    const fresh = link?.connected === true && age !== null && age < SILENT_MS;
    const words =
      !link || !linked
        ? "link not known"
        : fresh
          ? "linked"
          : age === null
            ? "not connected"
            : `silent ${seconds(age)}`;
    const offered = state.offers[post]?.to === me.id;
    const free = holder === null && mine === null && me.mayHold.includes(post);
    return {
      post,
      name: say.post(post),
      holder: holder?.name ?? null,
      mine: mine === post,
      link: holder === null ? "nobody" : words,
      is: holder === null ? "vacant" : fresh || !link || !linked ? "fresh" : "silent",
      wants: offered ? "offered to you" : free ? "touch to take" : null,
    };
  });
}

import type { Action } from "../../../shared/protocol/commands.ts";
import type { Post } from "../../../shared/protocol/posts.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { say } from "../../../shared/words/en.ts";
import { ago } from "../../ui/numbers.ts";
import type { StandingStop } from "../../ui/Standing.tsx";
import type { Panel } from "./model.ts";

/** Every hold, cut and fire that stands, with who raised it, how it ends, and the end itself for who may. */
export function standingStops(panel: Panel): StandingStop[] {
  const { state, post, now, fresh } = panel;
  const unheld = panel.unrecorded.map(
    (u): StandingStop => ({
      id: `unrecorded-${u.at}-${u.by.id}`,
      kind: "fire",
      words: `${say.signal(u.action.kind, u.action.engine ?? null)}. ${u.by.name}, ${say.post(u.by.post).toLowerCase()}, ${ago(now - u.at)}`,
      ends: "NOT RECORDED: the server could not write it down. Act on it and pass it on by hand signals.",
      unanswered: true,
      end: { word: "Taken in", disabled: false, onPress: () => panel.takeIn(u) },
    }),
  );
  const send = (word: string, action: Action) => ({
    word,
    disabled: !fresh,
    onPress: () => panel.act(action),
  });
  const unanswered = (id: number) => isUnanswered(state, id, post);
  const by = (b: { name: string; post: Post | null; at: number }) =>
    `${b.name}, ${say.post(b.post).toLowerCase()}, ${ago(now - b.at)}`;

  const fires = state.fires.map(
    (f): StandingStop => ({
      id: String(f.id),
      kind: "fire",
      words: `Fire${f.engine === null ? "" : ` at number ${f.engine}`}: ${say.firePlace(f.place).toLowerCase()}. ${by(f.by)}`,
      ends: f.outBy
        ? `${f.outBy.name} says it is out. A second person must say so too.`
        : "Ends when two people on two devices say it is out.",
      unanswered: unanswered(f.id),
      end: null,
    }),
  );
  const cuts = state.cuts.map(
    (c): StandingStop => ({
      id: String(c.id),
      kind: "cut",
      words: `Cut ${c.engine === null ? "all engines" : `number ${c.engine}`}. ${by(c.by)}`,
      ends:
        c.doneAt === null
          ? "Waits for the cockpit to report stopped."
          : "Reported stopped. Can be stood down.",
      unanswered: unanswered(c.id),
      end: null,
    }),
  );
  const holds = state.holds.map((h): StandingStop => {
    const ownerThere = Object.values(state.posts).some((p) => p !== null && p.id === h.person);
    const mine = h.person === panel.me.id;
    // One the server raised for a silent post has no owner: the crew or the supervisor ends it.
    const orphan = h.person === null && (post === "supervisor" || post === "cockpit");
    const heir = orphan || (!ownerThere && post !== null && post === h.by.post);
    const note = holdWords(h.note);
    return {
      id: String(h.id),
      kind: "hold",
      words: `${note}. ${by(h.by)}`,
      ends: mine
        ? "Yours to release."
        : h.person === null
          ? "Released by the cockpit or the supervisor."
          : ownerThere
            ? `Released by ${h.by.name} alone.`
            : `${h.by.name} holds no post: also released by the supervisor, with a reason.`,
      unanswered: unanswered(h.id),
      end:
        mine || heir ? send("Release", { type: "send", kind: "release", ref: h.id, channel: "panel" }) : null,
    };
  });
  return [...unheld, ...fires, ...cuts, ...holds];
}

function isUnanswered(state: SessionState, id: number, post: Post | null): boolean {
  if (post === null) return false;
  const signal = state.signals.find((s) => s.id === id);
  return signal?.due.includes(post) === true && signal.answers[post] === undefined;
}

/** What a hold was raised for, from its note. */
function holdWords(note: string | null): string {
  const [why, what] = note?.split(" ") ?? [];
  if (why === "turning") return `Hold: number ${what} turning without clearance`;
  if (why === "silent") return `Hold: ${say.post(what as Post).toLowerCase()} silent`;
  return "Hold";
}

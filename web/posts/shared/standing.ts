import type { Action } from "../../../shared/protocol/commands.ts";
import type { Post } from "../../../shared/protocol/posts.ts";
import type { SignalKind } from "../../../shared/protocol/signals.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { enginesOf, placesOf } from "../../../shared/stops/fireSeats.ts";
import { ago } from "../../ui/numbers.ts";
import type { StandingStop } from "../../ui/Standing.tsx";
import type { Words } from "../../words/catalogue.ts";
import { maySlip } from "./maySlip.ts";
import type { Panel } from "./model.ts";

/**
 * Returns every standing hold, cut and fire: who raised it, how it ends, and this person's keys; then the stops that were
 * taken back as a slip and that somebody has not received yet.
 * @param locate asks where the fire of this number burns
 */
export function standingStops(panel: Panel, locate: (ref: number) => void): StandingStop[] {
  const { state, post, now, fresh, words: all } = panel;
  const { say, text } = all;
  const words = text.standing;
  const unheld = panel.unrecorded.map(
    (u): StandingStop => ({
      id: `unrecorded-${u.at}-${u.by.id}`,
      kind: "fire",
      words: `${say.signal(u.action.kind, u.action.engine ?? null)}. ${u.by.name}, ${say.post(u.by.post).toLowerCase()}, ${ago(now - u.at, text)}`,
      ends: words.notRecorded,
      unanswered: true,
      keys: [{ word: words.takenIn, disabled: false, onPress: () => panel.takeIn(u) }],
    }),
  );
  const send = (word: string, action: Action) => ({
    word,
    disabled: !fresh,
    onPress: () => panel.act(action),
  });
  const slip = (id: number) =>
    maySlip(panel, id)
      ? [send(words.slip, { type: "send", kind: "disregard", ref: id, channel: "panel" })]
      : [];
  const unanswered = (id: number) => isUnanswered(state, id, post);
  const by = (b: { name: string; post: Post | null; at: number }) =>
    `${b.name}, ${say.post(b.post).toLowerCase()}, ${ago(now - b.at, text)}`;

  const fires = state.fires.map(
    (f): StandingStop => ({
      id: String(f.id),
      kind: "fire",
      words: `${fireWords(f, all)}. ${by(f.by)}`,
      ends: f.outBy ? words.outOnce(f.outBy.name) : words.outTwice,
      rule: f.outBy === null,
      unanswered: unanswered(f.id),
      // Never disabled: a word of where it burns is kept and sent like a stop.
      keys: [{ word: locateWord(f, words), disabled: false, onPress: () => locate(f.id) }, ...slip(f.id)],
    }),
  );
  const cuts = state.cuts.map(
    (c): StandingStop => ({
      id: String(c.id),
      kind: "cut",
      words: `${c.engine === null ? text.stops.cutAll : words.cut(c.engine)}. ${by(c.by)}`,
      ends: c.doneAt === null ? words.cutWaits : words.cutDone,
      unanswered: unanswered(c.id),
      keys: slip(c.id),
    }),
  );
  const holds = state.holds.map((h): StandingStop => {
    const ownerThere = Object.values(state.posts).some((p) => p !== null && p.id === h.person);
    const mine = h.person === panel.me.id;
    // A hold the server raised for a silent post has no owner: cockpit or supervisor may end it.
    const orphan = h.person === null && (post === "supervisor" || post === "cockpit");
    const heir = orphan || (!ownerThere && post !== null && post === h.by.post);
    const note = holdWords(h.note, all);
    return {
      id: String(h.id),
      kind: "hold",
      words: `${note}. ${by(h.by)}`,
      ends: mine
        ? words.yours
        : h.person === null
          ? words.crews
          : ownerThere
            ? words.owners(h.by.name)
            : words.orphaned(h.by.name),
      unanswered: unanswered(h.id),
      keys: [
        ...(mine || heir
          ? [send(words.release, { type: "send", kind: "release", ref: h.id, channel: "panel" })]
          : []),
        ...slip(h.id),
      ],
    };
  });
  // A post whose answer is due is asked; everybody else is told here.
  const slips = state.signals
    .filter((s) => s.kind === "disregard" && !unanswered(s.id))
    .map(
      (s): StandingStop => ({
        id: String(s.id),
        kind: "slip",
        words: `${words.wasASlip(say.signal((s.note ?? "hold") as SignalKind, s.engine))}. ${by(s.by)}`,
        ends: words.slipWaits,
        unanswered: false,
        keys: [],
      }),
    );
  return [...unheld, ...fires, ...cuts, ...holds, ...slips];
}

function isUnanswered(state: SessionState, id: number, post: Post | null): boolean {
  if (post === null) return false;
  const signal = state.signals.find((s) => s.id === id);
  return signal?.due.includes(post) === true && signal.answers[post] === undefined;
}

/** Returns the key's word: it asks for what is not said of this fire, and once all is, for a further place. */
function locateWord(fire: SessionState["fires"][number], words: Words["text"]["standing"]): string {
  const places = placesOf(fire);
  const known = places.includes("groundEquipment") || (places.length > 0 && enginesOf(fire).length > 0);
  return known ? words.locateMore : words.locate;
}

function fireWords(fire: SessionState["fires"][number], { say, text }: Words): string {
  const engines = enginesOf(fire);
  const places = placesOf(fire);
  const where = say
    .both((places.length === 0 ? (["notSaid"] as const) : places).map(say.firePlace))
    .toLowerCase();
  return engines.length === 0
    ? text.standing.fire(where)
    : text.standing.fireAt(say.both(engines.map(String)), where);
}

/** Returns the reason of a hold in words, from its note. */
function holdWords(note: string | null, { say, text }: Words): string {
  const [why, what = "", ...more] = note?.split(" ") ?? [];
  if (why === "turning") return text.standing.holdTurning(what);
  if (why === "silent")
    return text.standing.holdSilent([what, ...more].map((p) => say.post(p as Post).toLowerCase()).join(", "));
  return text.standing.hold;
}

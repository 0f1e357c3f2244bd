import { type Choice, choice } from "../../../shared/asks/ask.ts";
import { type PlainLife, plain } from "../../../shared/engine/life.ts";
import { nextInOrder } from "../../../shared/engine/start.ts";
import type { Post } from "../../../shared/protocol/posts.ts";
import type { SignalKind } from "../../../shared/protocol/signals.ts";
import { permissionFor } from "../../../shared/session/permissions.ts";
import { engineOf } from "../../../shared/session/state.ts";
import type { AnswerKey } from "../../ui/askView.ts";
import { answerKey } from "./askViews.ts";
import type { Panel } from "./model.ts";

export interface OptionGroup {
  title: string;
  keys: AnswerKey[];
}

type Is = PlainLife["is"];

/** Engine states in which a report makes sense. In any other state it would be refused. */
const WHEN: Partial<Record<SignalKind, readonly Is[]>> = {
  readyToStart: ["waiting", "shutDown", "cooling"],
  startAbandoned: ["requested", "clear", "cranking"],
  caught: ["cranking"],
  started: ["running"],
  shutDown: ["cranking", "caught", "running", "stable"],
  revokeClearance: ["clear"],
};

const OWN: Readonly<Record<Post, readonly SignalKind[]>> = {
  cockpit: ["readyToStart", "caught", "started", "startAbandoned", "shutDown", "revokeClearance"],
  fireGuard: ["guardInPlace", "arcClear", "arcNotClear", "guardAway", "revokeClearance"],
  groundPower: ["arcNotClear"],
  supervisor: ["revokeClearance", "arcNotClear"],
};

/** Hand signals that each post commonly sees from another post and may record for it. */
const SEEN: Readonly<Record<Post, readonly [SignalKind, Post][]>> = {
  cockpit: [
    ["guardInPlace", "fireGuard"],
    ["arcClear", "fireGuard"],
    ["arcNotClear", "fireGuard"],
  ],
  fireGuard: [["readyToStart", "cockpit"]],
  groundPower: [["readyToStart", "cockpit"]],
  supervisor: [
    ["readyToStart", "cockpit"],
    ["guardInPlace", "fireGuard"],
    ["arcClear", "fireGuard"],
    ["arcNotClear", "fireGuard"],
  ],
};

/** Returns everything this post can send about one engine now, grouped. */
export function engineOptions({ state, post, now, words }: Panel, n: number): OptionGroup[] {
  const { say, text } = words;
  const { options } = text;
  const own: Partial<Record<SignalKind, string>> = options.own;
  const engine = engineOf(state, n);
  if (!engine) return [];
  const is = plain(engine.life).is;
  const allowed = (kind: SignalKind) =>
    permissionFor({ type: "send", kind }).stages.includes(state.stage) && (WHEN[kind]?.includes(is) ?? true);
  const key = (c: Choice, word: string, id: string) => answerKey(state, c, now, words, `${n}/${id}`, word);
  const send = (kind: SignalKind) => ({ type: "send" as const, kind, engine: n, channel: "panel" as const });

  const groups: OptionGroup[] = [];
  if (post !== null) {
    const reports = OWN[post].filter(allowed).map((kind) => {
      const early = kind === "readyToStart" && nextInOrder(state) !== n;
      const word = own[kind] ?? say.signal(kind, n);
      const tone =
        kind === "shutDown" || kind === "startAbandoned" || kind === "arcNotClear" ? "no" : "plain";
      return key(
        choice(kind, tone, send(kind), early ? { is: "reason" } : null),
        early ? options.early(word) : word,
        kind,
      );
    });
    groups.push({ title: options.report, keys: reports });
    const seen = SEEN[post]
      .filter(([kind]) => allowed(kind))
      .map(([kind, from]) =>
        key(
          choice(kind, "plain", { ...send(kind), channel: "hand", seenFrom: from }),
          say.signal(kind, n),
          `seen-${kind}`,
        ),
      );
    groups.push({ title: options.seen, keys: seen });
  }
  if (post === "cockpit") {
    const readings = state.type.gauges
      .filter((g) => g.perEngine)
      .map((g) =>
        key(
          choice(
            "read",
            "plain",
            { type: "reading", gauge: g.id, engine: n },
            { is: "figure", field: "reading", unit: g.unit },
          ),
          g.name,
          `gauge-${g.id}`,
        ),
      );
    groups.push({ title: options.gauge, keys: readings });
  }
  if (post !== null) {
    const drills = state.type.drills.map((d) =>
      key(choice(d.id, "plain", { type: "startDrill", drill: d.id, engine: n }), d.title, `drill-${d.id}`),
    );
    groups.push({ title: options.drill, keys: drills });
  }
  groups.push({
    title: options.danger,
    keys: [key(choice("turning", "no", send("turning")), say.signal("turning", n), "turning")],
  });
  return groups.filter((g) => g.keys.length > 0);
}

import { type Offer, offer } from "../../../shared/asks/ask.ts";
import { plain } from "../../../shared/engine/life.ts";
import { nextInOrder } from "../../../shared/engine/nextInOrder.ts";
import type { Post } from "../../../shared/protocol/posts.ts";
import { SIGNAL_KINDS, type SignalKind } from "../../../shared/protocol/signals.ts";
import { engineOf } from "../../../shared/session/state.ts";
import { signalOf } from "../../../shared/signals/all.ts";
import type { SignalMenu } from "../../../shared/signals/definition.ts";
import type { AnswerKey } from "../../ui/askView.ts";
import { answerKey } from "./askViews.ts";
import type { Panel } from "./model.ts";

export interface OptionGroup {
  title: string;
  keys: AnswerKey[];
}

interface Offered {
  kind: SignalKind;
  menu: SignalMenu;
}

const OFFERED: readonly Offered[] = SIGNAL_KINDS.flatMap((kind) => {
  const { menu } = signalOf(kind);
  return menu ? [{ kind, menu }] : [];
});

/** The post that gives a signal by hand, as another post sees it. */
function giverOf(kind: SignalKind): Post {
  const { from } = signalOf(kind);
  const [giver] = from === "anyone" ? [] : from;
  if (!giver) throw new Error(`nobody gives "${kind}" by hand`);
  return giver;
}

/** Returns everything this post can send about one engine now, grouped. */
export function engineOptions({ state, post, now, words }: Panel, n: number): OptionGroup[] {
  const { say, text } = words;
  const { options } = text;
  const own: Partial<Record<SignalKind, string>> = options.own;
  const engine = engineOf(state, n);
  if (!engine) return [];
  const is = plain(engine.life).is;
  const allowed = ({ kind, menu }: Offered) =>
    signalOf(kind).stages.includes(state.stage) && (menu.when?.includes(is) ?? true);
  const key = (c: Offer, word: string, id: string) => answerKey(state, c, word, `${n}/${id}`);
  const send = (kind: SignalKind) => ({ type: "send" as const, kind, engine: n, channel: "panel" as const });

  const groups: OptionGroup[] = [];
  if (post !== null) {
    const reports = OFFERED.filter((o) => o.menu.own.includes(post) && allowed(o)).map(({ kind, menu }) => {
      const early = kind === "readyToStart" && nextInOrder(state) !== n;
      const word = own[kind] ?? say.signal(kind, n);
      return key(
        offer(menu.tone, send(kind), early ? { is: "reason" } : null),
        early ? options.early(word) : word,
        kind,
      );
    });
    groups.push({ title: options.report, keys: reports });
    const seen = OFFERED.filter((o) => o.menu.seenBy.includes(post) && allowed(o)).map(({ kind }) =>
      key(
        offer("plain", { ...send(kind), channel: "hand", seenFrom: giverOf(kind), seenAt: Math.round(now) }),
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
          offer(
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
      key(offer("plain", { type: "startDrill", drill: d.id, engine: n }), d.title, `drill-${d.id}`),
    );
    groups.push({ title: options.drill, keys: drills });
  }
  groups.push({
    title: options.danger,
    keys: [key(offer("no", send("turning")), say.signal("turning", n), "turning")],
  });
  return groups.filter((g) => g.keys.length > 0);
}

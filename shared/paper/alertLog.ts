import type { Post } from "../protocol/posts.ts";
import type { Alert } from "../session/state.ts";
import type { Say } from "../words/say.ts";
import type { Moment } from "./moments.ts";

export interface AlertRow {
  id: number;
  at: number;
  words: string;
  to: Post[];
  /** Acknowledgements at each post. The person who raised a stop need not acknowledge it. */
  acknowledged: { post: Post; name: string; at: number }[];
  /** Number of times that it sounded again unacknowledged, and that its cause came back. */
  again: number;
  shelved: { post: Post; at: number; until: number }[];
  /** Time at which its cause ended. */
  endedAt: number | null;
}

const unseen = (alert: Alert | undefined, post: Post) =>
  alert?.posts[post]?.endsWith("Unacknowledged") ?? false;

/** Returns every alert of the session: the posts it went to, and who acknowledged it when. */
export function alertLog(moments: readonly Moment[], say: Say): AlertRow[] {
  const rows = new Map<number, AlertRow>();
  for (const { event, before, after } of moments) {
    const { fact, at, actor } = event;
    if (fact.type === "alertRaised") {
      const known = before?.alerts.find(
        (a) => !a.active && after.alerts.some((b) => b.id === a.id && b.active),
      );
      const row = known && rows.get(known.id);
      if (row) {
        row.again += 1;
        row.endedAt = null;
      } else
        rows.set(event.seq, {
          id: event.seq,
          at,
          words: say.alert(fact.kind, fact.engine ?? null),
          to: fact.to,
          acknowledged: [],
          again: 0,
          shelved: [],
          endedAt: null,
        });
    }
    if (fact.type === "alertAgain") forRow(rows, fact.alert, (r) => (r.again += 1));
    if (fact.type === "alertEnded") forRow(rows, fact.alert, (r) => (r.endedAt = at));
    if (fact.type === "alertShelved")
      forRow(rows, fact.alert, (r) => r.shelved.push({ post: fact.post, at, until: fact.until }));
    if (actor.kind !== "person" || actor.post === null) continue;
    const { post, name } = actor;
    for (const alert of before?.alerts ?? []) {
      const now = after.alerts.find((a) => a.id === alert.id);
      if (fact.type !== "alertShelved" && unseen(alert, post) && !unseen(now, post))
        forRow(rows, alert.id, (r) => r.acknowledged.push({ post, name, at }));
    }
  }
  return [...rows.values()];
}

function forRow(rows: Map<number, AlertRow>, id: number, change: (row: AlertRow) => void): void {
  const row = rows.get(id);
  if (row) change(row);
}

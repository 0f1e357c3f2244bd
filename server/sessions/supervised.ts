import { isSupervisedNews } from "../../shared/posts/alsoSupervised.ts";
import { isOver, type SessionState } from "../../shared/session/state.ts";

/** The aircraft that each supervisor supervises in the open sessions of this server, rehearsals left out. */
export class Supervised {
  /** The supervisor of each session. */
  readonly #supervisors = new Map<string, string>();
  /** The aircraft of each session, by supervisor. */
  readonly #sessions = new Map<string, Map<string, string>>();

  /** Takes over a session's newest state. Returns the sessions of each supervisor who came or went. */
  published(state: SessionState): string[] {
    if (state.rehearsal) return [];
    const { id, aircraft } = state;
    const before = this.#supervisors.get(id);
    const now = isOver(state) ? undefined : state.posts.supervisor?.id;
    if (before === now) return [];
    if (before !== undefined) {
      const of = this.#sessions.get(before);
      of?.delete(id);
      if (of?.size === 0) this.#sessions.delete(before);
      this.#supervisors.delete(id);
    }
    if (now !== undefined) {
      this.#sessions.set(now, (this.#sessions.get(now) ?? new Map()).set(id, aircraft));
      this.#supervisors.set(id, now);
    }
    return [before, now].flatMap((person) => [...(this.#sessions.get(person ?? "")?.keys() ?? [])]);
  }

  /** Returns the other aircraft of this session's supervisor; undefined when the session knows them. */
  news(state: SessionState): string[] | undefined {
    if (state.rehearsal) return undefined;
    const person = state.posts.supervisor?.id;
    const all = person === undefined ? undefined : this.#sessions.get(person);
    const others = [...new Set(all?.values())].filter((aircraft) => aircraft !== state.aircraft).sort();
    return isSupervisedNews(state, others) ? others : undefined;
  }
}

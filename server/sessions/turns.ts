import { POSTS } from "../../shared/protocol/posts.ts";
import { isRehearsalId } from "../../shared/protocol/rehearsal.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { Outside, Person } from "../../shared/session/step.ts";
import type { PostElsewhere } from "../../shared/session/verdict.ts";
import { OneAtATime, OneAtATimeByKey } from "../one-at-a-time.ts";
import type { SessionsDeps } from "./deps.ts";
import type { HeldSessions } from "./held-sessions.ts";
import type { LiveSession } from "./live-session.ts";

/** Commands whose answer depends on other sessions, one at a time: each finds what the one before it recorded. */
export class Turns {
  readonly #deps: SessionsDeps;
  readonly #held: HeldSessions;
  readonly #leaving = new OneAtATime();
  /** Attempts to take a post, by person. */
  readonly #taking = new OneAtATimeByKey();

  constructor(deps: SessionsDeps, held: HeldSessions) {
    this.#deps = deps;
    this.#held = held;
  }

  /** Lets sessions leave the brief one at a time: of two with the same aircraft, the second must find the first. */
  leaveBrief<T>({ state }: LiveSession, answer: (outside: Outside) => Promise<T>): Promise<T> {
    const { store, inTurn } = this.#deps;
    const look = async () => {
      const open = await store.openSessions();
      const other = open.find(
        ({ id, aircraft, stage }) =>
          aircraft === state.aircraft && id !== state.id && stage !== "plan" && stage !== "brief",
      );
      return answer({ elsewhere: other?.code });
    };
    return this.#leaving.run(() => inTurn([`aircraft:${state.aircraft}`], look));
  }

  /**
   * Gives a person one post at a time: of two sessions, the second must find what the first one gave. A post in a
   * rehearsal keeps nobody from a real one.
   */
  takePost<T>(live: LiveSession, { id }: Person, answer: (outside: Outside) => Promise<T>): Promise<T> {
    const look = async () => {
      const held = await this.#heldElsewhere(live.state, id);
      // Any other post weighs more than the supervisor's, which may be held at several aircraft.
      return answer({ postElsewhere: held.find((h) => h.post !== "supervisor") ?? held[0] });
    };
    return this.#taking.run(id, () => this.#deps.inTurn([`person:${id}`], look));
  }

  /** Returns the posts that a person holds in open sessions but one, up to the newest event of each. */
  async #heldElsewhere({ id: session, rehearsal }: SessionState, person: string): Promise<PostElsewhere[]> {
    const heads = await this.#deps.store.openHeads();
    const others = heads.filter(({ id }) => id !== session && (rehearsal || !isRehearsalId(id)));
    const open = await Promise.all(
      others.map(async ({ id, headSeq }) => {
        try {
          const live = await this.#held.get(id);
          if (headSeq > live.state.seq) await live.follow(headSeq);
          return [live];
        } catch (error) {
          // Nobody can act in a session that cannot be read, and it must not keep posts of all others from everybody.
          this.#deps.log.error({ err: error, session: id }, "posts held in a session could not be read");
          return [];
        }
      }),
    );
    return open
      .flat()
      .flatMap(({ code, state }) =>
        POSTS.filter((post) => state.posts[post]?.id === person).map((post) => ({ code, post })),
      );
  }
}

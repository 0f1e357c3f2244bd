import { AS_READ } from "../../shared/models/unitChoice.ts";
import type { Script } from "../../shared/partners/script.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { LIVE_STAGES, type Stage } from "../../shared/protocol/stages.ts";
import { isOver } from "../../shared/session/state.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { say } from "../../shared/words/en.ts";
import { outcomesOf } from "../../shared/words/outcomes.ts";
import { demo } from "../demo-data.ts";
import { Api, type DemoPlan, type DemoSignIn, type SignedIn } from "./api.ts";
import { type CrewClock, wallClock } from "./clock.ts";
import { CrewLink } from "./link.ts";
import { narrate } from "./narrate.ts";
import { Partner } from "./partner.ts";
import { cast } from "./people.ts";

export interface CrewOptions {
  /** The server's address, for example http://localhost:4380. */
  url: string;
  /** Posts to play. Each is taken only while nobody holds it. Default: every post. */
  posts?: readonly Post[];
  /** Session to play in. Default: the newest one that is not over, or a newly planned one. */
  sessionId?: string;
  /** The plan of a new session. Default: the first demo aircraft, on ground power. */
  plan?: Partial<DemoPlan>;
  /** Speed as a multiple of human pace; default 1. */
  pace?: number;
  seed?: number;
  clock?: CrewClock;
  /** Called with one line per notable event. */
  onLine?: (line: string) => void;
}

export interface RunningCrew {
  sessionId: string;
  /** Resolves to the stage in which the session ended. Rejects when the server refuses the crew. */
  done: Promise<Stage>;
  /** Stops the crew and leaves the session as it is. */
  stop(): void;
}

/**
 * Plays the free posts of one session with scripted partners.
 * @throws Error when the server cannot be reached, has no demo, or has nobody left for the posts
 */
export async function runCrew(options: CrewOptions): Promise<RunningCrew> {
  const crew = new Crew(options);
  await crew.begin();
  return { sessionId: crew.sessionId, done: crew.done, stop: () => crew.stop() };
}

class Crew {
  sessionId = "";
  readonly done: Promise<Stage>;
  readonly #options: CrewOptions;
  readonly #api: Api;
  readonly #script: Script;
  readonly #clock: CrewClock;
  readonly #partners = new Map<Post, { partner: Partner; link: CrewLink }>();
  /** Handles that play, or that were refused. */
  readonly #spokenFor = new Set<string>();
  #signIns: DemoSignIn[] = [];
  #told = 0;
  readonly #signals = new Map<number, string>();
  /** The session's type, once its plan was read. */
  #type: AircraftType | null = null;
  #resolve: (stage: Stage) => void = () => {};
  #reject: (why: Error) => void = () => {};

  constructor(options: CrewOptions) {
    this.#options = options;
    this.#api = new Api(options.url);
    this.#clock = options.clock ?? wallClock;
    const seed = options.seed ?? 1;
    const cart = demo.carts[seed % demo.carts.length] ?? "";
    this.#script = { seed, pace: options.pace ?? 1, cart };
    this.done = new Promise((resolve, reject) => {
      this.#resolve = resolve;
      this.#reject = reject;
    });
    // Avoid an unhandled rejection when nobody awaits `done` yet.
    this.done.catch(() => {});
  }

  async begin(): Promise<void> {
    this.#signIns = await this.#api.demoSignIns();
    if (this.#signIns.length === 0) throw new Error("this server has no demo to play in");
    const wanted = this.#options.posts ?? POSTS;
    const scout = await this.#scout(wanted);
    this.sessionId = this.#options.sessionId ?? (await this.#findSession(scout.token));
    const held = await this.#api.posts(scout.token, this.sessionId);
    await this.#api.signOut(scout.token);
    const names = new Set(POSTS.flatMap((p) => held[p]?.name ?? []));
    for (const s of this.#signIns) if (names.has(s.name)) this.#spokenFor.add(s.handle);
    // A person whom an earlier run of this crew put at a post continues there.
    for (const post of wanted) {
      const own = held[post]?.device === this.#device(post) ? held[post] : null;
      const same = this.#signIns.find((s) => s.name === own?.name);
      if (same) await this.#put(post, same);
    }
    for (const post of wanted) if (!this.#partners.has(post)) await this.#fill(post);
    if (this.#partners.size === 0) throw new Error("nobody of the demo people is left to play");
  }

  stop(): void {
    for (const { partner, link } of this.#partners.values()) {
      partner.stop();
      link.close();
    }
    this.#partners.clear();
  }

  /** Signs in one person to read the server's state. */
  async #scout(wanted: readonly Post[], device: "scout" | "planner" = "scout"): Promise<SignedIn> {
    const first = [...cast(wanted, this.#signIns, this.#spokenFor).values()].find((s) => s !== null);
    if (!first) throw new Error("nobody of the demo people may hold these posts");
    return this.#api.signIn(first, this.#device(device));
  }

  async #findSession(token: string): Promise<string> {
    const live = (await this.#api.sessions(token)).filter((s) => LIVE_STAGES.includes(s.stage));
    if (live[0]) return live[0].id;
    const first = demo.aircraft[0]?.id ?? "";
    const place = demo.places[0] ?? "";
    const plan: DemoPlan = { aircraft: first, place, powerSource: "groundPower", ...this.#options.plan };
    const planner = await this.#scout(["supervisor", "cockpit"], "planner");
    const { id, code } = await this.#api.plan(planner.token, plan);
    await this.#api.signOut(planner.token);
    this.#options.onLine?.(`Planned ${plan.aircraft} at ${plan.place}: join with ${code}`);
    return id;
  }

  async #fill(post: Post): Promise<void> {
    const who = cast([post], this.#signIns, this.#spokenFor).get(post) ?? null;
    if (who) await this.#put(post, who);
    else this.#options.onLine?.(`Nobody is left to play ${say.post(post)}`);
  }

  async #put(post: Post, who: DemoSignIn): Promise<void> {
    this.#spokenFor.add(who.handle);
    const me = await this.#api.signIn(who, this.#device(post));
    const clock = this.#clock;
    const partner = new Partner(
      {
        post,
        me,
        script: this.#script,
        clock,
        onRefused: (at, _action, refusal) =>
          this.#options.onLine?.(
            `${say.post(at)} was refused: ${outcomesOf(say).refusal(refusal, AS_READ, this.#type)}`,
          ),
        onUnfit: (at) => void this.#replace(at).catch((why: Error) => this.#fail(why)),
      },
      () => link,
    );
    const link = new CrewLink({
      url: this.#options.url,
      token: me.token,
      session: this.sessionId,
      clock,
      onChange: (fresh) => {
        this.#tell(fresh);
        partner.look();
        if (link.state && isOver(link.state)) this.#finish(link.state.stage);
      },
      onEnd: (why) => this.#fail(new Error(why)),
    });
    this.#partners.set(post, { partner, link });
  }

  async #replace(post: Post): Promise<void> {
    const gone = this.#partners.get(post);
    gone?.partner.stop();
    gone?.link.close();
    this.#partners.delete(post);
    await this.#fill(post);
  }

  #tell(fresh: readonly SessionEvent[]): void {
    for (const event of fresh) {
      if (event.seq <= this.#told) continue;
      this.#told = event.seq;
      const { fact } = event;
      if (fact.type === "sent") this.#signals.set(event.seq, say.signal(fact.kind, fact.engine ?? null));
      if (fact.type === "planned") this.#type = fact.aircraftType;
      const line = narrate(event, this.#signals, this.#type);
      if (line) this.#options.onLine?.(line);
    }
  }

  #finish(stage: Stage): void {
    this.stop();
    this.#resolve(stage);
  }

  #fail(why: Error): void {
    this.stop();
    this.#reject(why);
  }

  #device(of: Post | "scout" | "planner"): string {
    return `crew-${of}-${this.#script.seed}`;
  }
}

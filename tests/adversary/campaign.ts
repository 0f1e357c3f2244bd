import { randomUUID } from "node:crypto";
import { isTurning } from "../../shared/engine/life.ts";
import { canonical } from "../../shared/evidence/canonical.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { FIRE_PLACES } from "../../shared/protocol/signals.ts";
import { isOver, type SessionState } from "../../shared/session/state.ts";
import { planBody } from "../http/test-server.ts";
import { Chance } from "../sim/chance.ts";
import { type Client, command, type Sent } from "./client.ts";
import { Crew } from "./crew.ts";
import { anything, beside, harmful, lawful, type Try, whoIs } from "./moves.ts";
import { postJson } from "./post.ts";
import { AIRCRAFT, World } from "./world.ts";

/** The commands given to one aircraft, and its exported records. */
export interface Campaign {
  seed: number;
  sessions: number;
  /** Returns that were brought to their end with every propeller seen still. */
  stopped: number;
  accepted: number;
  refused: number;
  /** Commands by what was accepted: the kind of a signal, or the type of another action. */
  kinds: Map<string, number>;
  kills: number;
  files: string[];
  /** Faults that the clients saw: an answer that is not in the record, or panels that differ. */
  faults: string[];
}

const PLACES = ["North ramp", "Hangar 2"];

/**
 * Plays some sessions of one aircraft, one after the other and now and then two at once, over real sockets: the start as
 * it should be, and between it everything that people, links, clocks and servers do wrong. The seed decides all of it.
 */
export async function campaign(seed: number, sessions: number): Promise<Campaign> {
  const run = new Run(seed);
  try {
    return await run.play(sessions);
  } finally {
    await run.end();
  }
}

class Run {
  readonly #seed: number;
  readonly #chance: Chance;
  readonly #world = new World();
  readonly #crew: Crew;
  readonly #sessions: string[] = [];
  /** Decided on a state that is gone when they are sent. */
  readonly #heldBack: { client: Client; sent: Sent }[] = [];
  readonly #accepted = new Map<string, { session: string; seq: number }>();
  readonly #kinds = new Map<string, number>();
  #refused = 0;
  /** Share of what is done that is not the start as it should be. */
  #noise = 0;

  constructor(seed: number) {
    this.#seed = seed;
    this.#chance = new Chance(seed);
    this.#crew = new Crew(this.#world);
  }

  async play(sessions: number): Promise<Campaign> {
    await this.#world.start();
    await this.#crew.signIn();
    for (let k = 0; k < sessions; k += 1) {
      const session = await this.#plan();
      this.#noise = this.#chance.is(0.5) ? 0.06 : this.#chance.next() * 0.4;
      for (let left = 80 + this.#chance.below(200); left > 0 && !this.#over(session); left -= 1)
        await this.#step(session);
      // Some are left open beside the next one, without their crew.
      if (this.#chance.is(0.85)) await this.#finish(session);
      else await this.#leave(session);
    }
    return this.#report();
  }

  end(): Promise<void> {
    this.#crew.drop();
    return this.#world.close();
  }

  #state(session: string): SessionState {
    return this.#crew.stateOf(session);
  }

  #over(session: string): boolean {
    return isOver(this.#state(session));
  }

  async #plan(): Promise<string> {
    const away = this.#turnsNow();
    const purpose = this.#chance.is(away.length > 0 ? 0.8 : 0.2) ? "return" : "start";
    const chosen = [[3], [3, 4], [2, 1], [3, 4, 2, 1]][this.#chance.below(4)];
    const powerSource = this.#chance.is(0.8) ? "groundPower" : "batteries";
    const place = PLACES[this.#chance.below(PLACES.length)];
    // Mostly the engines that turn; now and then others, as from an aircraft that lands from elsewhere.
    const order = purpose === "return" && away.length > 0 && this.#chance.is(0.7) ? away : chosen;
    const plan = { order, powerSource, place, purpose, aircraft: AIRCRAFT, orderReason: "as agreed" };
    const body = planBody(plan);
    const { token } = this.#crew.one("di");
    const url = `${this.#world.url}/api/sessions`;
    const { id } = await postJson<{ id: string }>(url, { ...body, commandId: randomUUID() }, token);
    this.#sessions.push(id);
    await this.#crew.watch(id);
    return id;
  }

  /** Engines that turned when the newest session ended. */
  #turnsNow(): number[] {
    const last = this.#sessions.at(-1);
    if (last === undefined || !this.#over(last)) return [];
    return this.#state(last).engines.flatMap((e) => (isTurning(e.life) ? [e.n] : []));
  }

  /** One thing happens: mostly somebody does something, sometimes the world does. */
  async #step(main: string): Promise<void> {
    const chance = this.#chance;
    const upset = chance.next() / (this.#noise + 0.02);
    if (upset < 0.02) return this.#kill(main);
    if (upset < 0.04) return this.#setClock();
    if (upset < 0.07) return this.#crew.relink(chance);
    if (upset < 0.1) return this.#office();
    if (upset < 0.13) return this.#world.pass(20_000 + chance.below(80_000));
    const open = this.#sessions.filter((s) => !this.#over(s));
    const session = chance.is(0.85) ? main : (open[chance.below(open.length)] ?? main);
    const late = chance.is(0.3) ? this.#heldBack.shift() : undefined;
    if (late) await this.#send(late.client, late.sent);
    const next = this.#choose(session);
    if (!next) return this.#world.pass(2_000 + chance.below(6_000));
    await this.#give(session, next);
    const ms = 100 + chance.below(1_100);
    await (chance.is(0.1) ? this.#world.passExactly(ms) : this.#world.pass(ms));
  }

  #choose(session: string): Try | null {
    const chance = this.#chance;
    const state = this.#state(session);
    const now = this.#world.now;
    if (!chance.is(this.#noise)) return lawful(state, now, chance);
    const die = chance.next();
    if (die < 0.35) return anything(state, now, chance);
    return die < 0.55 ? beside(state, chance) : harmful(state, chance);
  }

  /** Sends what was chosen: at once, twice, with others out of order, or too late. */
  async #give(session: string, { who, action }: Try): Promise<void> {
    const chance = this.#chance;
    const client = this.#crew.of(who);
    const sent = command(session, action);
    if (action.type === "override") sent.permit = await this.#world.permit(client.token, session, sent.id);
    if (!chance.is(this.#noise)) return this.#send(client, sent);
    const die = chance.below(4);
    if (die === 0) {
      const validUntil = chance.is(0.5) ? { validUntil: this.#world.now + 500 } : {};
      this.#heldBack.push({ client, sent: { ...sent, ...validUntil } });
    } else if (die === 1) {
      await Promise.all([this.#send(client, sent), this.#send(client, sent)]);
    } else if (die === 2) {
      const others = [this.#choose(session), this.#choose(session)].flatMap((t) => t ?? []);
      const all = [...others, { who, action }].filter((t) => t.action.type !== "override");
      const shuffled = all.map((t) => [chance.next(), t] as const).sort(([a], [b]) => a - b);
      await Promise.all(
        shuffled.map(([, t]) => this.#send(this.#crew.of(t.who), command(session, t.action))),
      );
    } else await this.#send(client, sent);
  }

  /** Sends a command, again and again until it is answered. */
  async #send(client: Client, sent: Sent): Promise<void> {
    const answer = await client.send(sent);
    if (answer === null || answer.status === "error") return;
    if (answer.status === "refused" || (answer.status === "duplicate" && answer.refusal)) {
      this.#refused += 1;
      return;
    }
    const known = this.#accepted.has(sent.id);
    this.#accepted.set(sent.id, { session: sent.session, seq: answer.seq ?? 0 });
    if (known) return;
    const kind = sent.action.type === "send" ? sent.action.kind : sent.action.type;
    this.#kinds.set(kind, (this.#kinds.get(kind) ?? 0) + 1);
  }

  /** The server dies with commands on their way; they are sent again to the next one, by the same id. */
  async #kill(session: string): Promise<void> {
    const flying = [this.#choose(session), this.#choose(session)]
      .flatMap((t) => (t && t.action.type !== "override" ? [t] : []))
      .map((t) => ({ client: this.#crew.of(t.who), sent: command(session, t.action) }));
    const answers = flying.map(({ client, sent }) => this.#send(client, sent));
    if (this.#chance.is(0.5)) await new Promise((resolve) => setImmediate(resolve));
    const up = this.#world.kill();
    this.#crew.drop();
    await Promise.all([up, ...answers]);
    await this.#crew.connect();
    for (const { client, sent } of flying) await this.#send(client, sent);
  }

  async #setClock(): Promise<void> {
    this.#world.setClock(this.#chance.below(20_000) - 10_000);
    // The server looks at its clock every second.
    await this.#world.pass(1_100);
  }

  /** Something is reported, or ended, at the aircraft without a session. */
  async #office(): Promise<void> {
    const chance = this.#chance;
    const by = this.#crew.one(chance.is(0.5) ? "ed" : "di");
    const stop = {
      type: "stop",
      is: (["hold", "cut", "fire"] as const)[chance.below(3)],
      engine: 1 + chance.below(4),
      place: FIRE_PLACES[chance.below(FIRE_PLACES.length)],
    };
    const locate = { ...stop, type: "fireAt", is: undefined, no: 1 + chance.below(12) };
    const end = { type: "end", no: 1 + chance.below(12), reason: "looked at" };
    const url = `${this.#world.url}/api/aircraft/${AIRCRAFT}/reports`;
    const action = [stop, locate, end, end][chance.below(4)];
    await postJson(url, { commandId: randomUUID(), action }, by.token);
  }

  /** The session is brought to its end: closed as it should be, or abandoned with what stands. */
  async #finish(session: string): Promise<void> {
    const close = this.#chance.is(0.5);
    this.#noise = 0;
    for (let left = 160; left > 0 && !this.#over(session); left -= 1) {
      const state = this.#state(session);
      const abandon = left < 40 || (!close && left % 3 === 0);
      const next = abandon ? this.#abandon(state) : lawful(state, this.#world.now, this.#chance);
      if (next) await this.#give(session, next);
      await this.#world.pass(next ? 1_000 : 6_000);
    }
  }

  /** Everybody leaves their post: a person holds posts in one open session at a time. */
  async #leave(session: string): Promise<void> {
    for (const post of POSTS) {
      const holder = this.#state(session).posts[post];
      if (!holder || this.#over(session)) continue;
      const who = whoIs(this.#state(session), holder.id);
      await this.#give(session, { who, action: { type: "leavePost", post } });
    }
  }

  #abandon(state: SessionState): Try | null {
    const turning = state.engines.find((e) =>
      ["cranking", "caught", "running", "stable"].includes(
        e.life.is === "fire" ? e.life.under.is : e.life.is,
      ),
    );
    const cockpit = state.posts.cockpit?.id;
    const chief = state.posts.supervisor?.id ?? cockpit;
    if (turning && cockpit) {
      const action = { type: "send", kind: "shutDown", engine: turning.n, channel: "panel" } as const;
      return { who: whoIs(state, cockpit), action };
    }
    const fire = state.fires[0];
    if (fire && chief) {
      const sayers = ["supervisor", "cockpit", "fireGuard"] as const;
      const ids = sayers.flatMap((p) => state.posts[p]?.id ?? []);
      const id = ids[this.#chance.below(ids.length)] ?? chief;
      const action = { type: "send", kind: "fireOut", ref: fire.id, channel: "panel" } as const;
      return { who: whoIs(state, id), action };
    }
    if (!chief) return lawful(state, this.#world.now, this.#chance);
    // A second person must agree where others depend on the session.
    const asked = state.abandon?.person === chief && cockpit ? cockpit : chief;
    return { who: whoIs(state, asked), action: { type: "abandon", reason: "the weather" } };
  }

  async #report(): Promise<Campaign> {
    await this.#world.pass(0);
    await this.#crew.catchUp();
    const files = await this.#world.records(this.#sessions, this.#crew.one("di").token);
    return {
      seed: this.#seed,
      sessions: this.#sessions.length,
      stopped: this.#sessions.map((s) => this.#state(s)).filter((s) => s.returning && s.stage === "closed")
        .length,
      accepted: this.#accepted.size,
      refused: this.#refused,
      kinds: this.#kinds,
      kills: this.#world.kills,
      files,
      faults: [...this.#differing(), ...this.#missing(files)],
    };
  }

  /** Sessions that two devices hold in different states. */
  #differing(): string[] {
    return this.#sessions.flatMap((session) => {
      const states = new Set(this.#crew.clients.map((c) => canonical(c.states.get(session) ?? null)));
      return states.size === 1 ? [] : [`${session}: the devices hold ${states.size} different states`];
    });
  }

  /** Accepted commands that are not in the record at their number. */
  #missing(files: readonly string[]): string[] {
    const recorded = new Set(
      files.flatMap((text) =>
        text
          .split("\n")
          .filter((line) => line.includes('"fact"'))
          .map((line) => JSON.parse(line) as { session: string; seq: number; command: string | null })
          .map(({ session, seq, command: id }) => `${session} ${seq} ${id}`),
      ),
    );
    return [...this.#accepted].flatMap(([id, { session, seq }]) =>
      recorded.has(`${session} ${seq} ${id}`) ? [] : [`${id} was accepted as ${seq} and is not there`],
    );
  }
}

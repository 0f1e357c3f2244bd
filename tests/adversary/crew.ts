import type { SessionState } from "../../shared/session/state.ts";
import type { Chance } from "../sim/chance.ts";
import type { Person } from "../spec/given.ts";
import { PEOPLE } from "../spec/walk.ts";
import { Client } from "./client.ts";
import type { World } from "./world.ts";

/** Everybody's devices. Each watches every session. */
export class Crew {
  readonly clients: readonly Client[] = PEOPLE.map((p) => new Client(p.id, p.device));
  readonly #world: World;

  constructor(world: World) {
    this.#world = world;
  }

  async signIn(): Promise<void> {
    for (const client of this.clients) client.token = await this.#world.token(client.handle, client.device);
    await this.connect();
  }

  async connect(): Promise<void> {
    await Promise.all(this.clients.map((c) => c.connect(this.#world.url)));
  }

  drop(): void {
    for (const client of this.clients) client.drop();
  }

  async watch(session: string): Promise<void> {
    await Promise.all(this.clients.map((c) => c.watch(session)));
  }

  /** Everybody takes up what they may have missed. */
  async catchUp(): Promise<void> {
    for (const client of this.clients)
      for (const session of client.states.keys()) await client.watch(session);
  }

  /** One device loses its link and comes back. */
  async relink(chance: Chance): Promise<void> {
    const client = this.clients[chance.below(this.clients.length)];
    client?.drop();
    await client?.connect(this.#world.url);
  }

  of(who: Person): Client {
    const client = this.clients.find((c) => c.handle === who.id && c.device === who.device);
    return client ?? this.one(who.id);
  }

  one(handle: string): Client {
    const client = this.clients.find((c) => c.handle === handle);
    if (!client) throw new Error(`${handle} has no device`);
    return client;
  }

  /** The newest state of a session that anybody holds. */
  stateOf(session: string): SessionState {
    const states = this.clients.flatMap((c) => c.states.get(session) ?? []);
    const newest = states.sort((a, b) => b.seq - a.seq)[0];
    if (!newest) throw new Error(`nobody watches ${session}`);
    return newest;
  }
}

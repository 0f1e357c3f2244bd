import type { Action } from "../../shared/protocol/commands.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { Person } from "../../shared/session/step.ts";
import { bearer, planned, signIn, type TestServer } from "../http/test-server.ts";

/** The four of the tests' crew, by the post that each is qualified for. */
export const CREW = {
  cockpit: { id: "ada", name: "Ada", device: "ada-tablet", mayHold: ["cockpit"] },
  fireGuard: { id: "bo", name: "Bo", device: "bo-tablet", mayHold: ["fireGuard"] },
  groundPower: { id: "cy", name: "Cy", device: "cy-tablet", mayHold: ["groundPower"] },
  supervisor: { id: "di", name: "Di", device: "di-tablet", mayHold: ["supervisor"] },
} as const satisfies Record<string, Person>;

/** A start and a rehearsal of one aircraft on one server. */
export class Both {
  readonly test: TestServer;
  start = "";
  rehearsal = "";
  code = "";
  #n = 0;
  #tokens = new Map<string, string>();

  constructor(test: TestServer) {
    this.test = test;
  }

  /** Plans both, of the same aircraft. */
  async begin(): Promise<this> {
    this.start = (await planned(this.test.app, await this.token("ada"))).id;
    ({ id: this.rehearsal, code: this.code } = await this.rehearse());
    return this;
  }

  async rehearse(who = "ada"): Promise<{ id: string; code: string }> {
    const reply = await this.ask("POST", "/rehearsals", who, {
      ...{ aircraft: "CH-TST", script: "firstDay", seed: 7, post: "cockpit" },
    });
    if (reply.statusCode !== 201) throw new Error(reply.body);
    return reply.json();
  }

  async token(who: string): Promise<string> {
    const known = this.#tokens.get(who) ?? (await signIn(this.test.app, who));
    this.#tokens.set(who, known);
    return known;
  }

  async ask(method: "GET" | "POST" | "DELETE", url: string, who = "ada", payload?: object) {
    const headers = bearer(await this.token(who));
    return this.test.app.inject({
      ...{ method, url: `/api${url}`, headers },
      ...(payload ? { payload } : {}),
    });
  }

  command(person: Person, session: string, action: Action) {
    this.#n += 1;
    const id = `00000000-0000-4000-8000-0000000e${String(this.#n).padStart(4, "0")}`;
    return this.test.services.sessions.command(person, { v: 1, id, session, clientAt: 1, action });
  }

  async state(session: string): Promise<SessionState> {
    return (await this.test.services.sessions.get(session)).state;
  }

  /** Lets each of the crew take the post they are qualified for. */
  async crewed(session: string): Promise<void> {
    for (const post of POSTS) {
      const said = await this.command(CREW[post], session, { type: "claimPost", post });
      if (said.status !== "accepted") throw new Error(JSON.stringify(said));
    }
  }
}

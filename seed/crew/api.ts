import { randomUUID } from "node:crypto";
import { z } from "zod";
import { postSchema, stageSchema } from "../../shared/protocol/enums.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { Purpose } from "../../shared/protocol/stages.ts";
import type { SessionState } from "../../shared/session/state.ts";

const signInsSchema = z.object({
  signIns: z.array(
    z.object({ handle: z.string(), pin: z.string(), name: z.string(), mayHold: z.array(postSchema) }),
  ),
});
export type DemoSignIn = z.infer<typeof signInsSchema>["signIns"][number];

const signedInSchema = z.object({
  token: z.string(),
  person: z.object({ id: z.string(), name: z.string() }),
});
/** A demo person, signed in on the crew's device for one post. */
export interface SignedIn {
  token: string;
  person: { id: string; name: string };
  device: string;
}

const sessionsSchema = z.array(
  z.object({ id: z.string(), code: z.string(), stage: stageSchema, aircraft: z.string() }),
);
const plannedSchema = z.object({ id: z.string(), code: z.string() });
const problemSchema = z.object({ title: z.string().optional(), detail: z.string().optional() });

export interface DemoPlan {
  aircraft: string;
  place: string;
  powerSource: "groundPower" | "batteries";
  /** A start, unless it says otherwise. */
  purpose?: Purpose;
  /** Engines that turn, of a return. Default: the type's order. */
  order?: number[];
  /** Needed where the order is not the advised one. */
  orderReason?: string;
}

/** Client of the HTTP API, as far as a crew needs it. Every method throws an Error with the server's message. */
export class Api {
  readonly #url: string;

  constructor(url: string) {
    this.#url = url;
  }

  /** Returns the public sign-ins; empty when the server has no demo. */
  async demoSignIns(): Promise<DemoSignIn[]> {
    return signInsSchema.parse(await this.#ask("GET", "demo")).signIns;
  }

  async signIn(who: DemoSignIn, device: string): Promise<SignedIn> {
    const body = { handle: who.handle, pin: who.pin, device: { id: device, name: "Scripted crew" } };
    const { token, person } = signedInSchema.parse(await this.#ask("POST", "sign-in", null, body));
    return { token, person: { id: person.id, name: person.name }, device };
  }

  async signOut(token: string): Promise<void> {
    await this.#ask("POST", "sign-out", token);
  }

  /** Returns all sessions, newest first. */
  async sessions(token: string): Promise<z.infer<typeof sessionsSchema>> {
    return sessionsSchema.parse(await this.#ask("GET", "sessions", token));
  }

  /** Returns who holds each post of a session now. */
  async posts(token: string, id: string): Promise<SessionState["posts"]> {
    const answer = (await this.#ask("GET", `sessions/${id}`, token)) as { state: SessionState };
    return answer.state.posts;
  }

  async plan(token: string, plan: DemoPlan): Promise<{ id: string; code: string }> {
    const crew = Object.fromEntries(POSTS.map((p) => [p, null])) as Record<Post, null>;
    const body = { commandId: randomUUID(), ...plan, crew };
    return plannedSchema.parse(await this.#ask("POST", "sessions", token, body));
  }

  async #ask(method: "GET" | "POST", path: string, token: string | null = null, body?: unknown) {
    const response = await this.#fetch(path, {
      method,
      headers: {
        ...(token ? { authorization: `Bearer ${token}` } : {}),
        ...(body === undefined ? {} : { "content-type": "application/json" }),
      },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
    const text = await response.text();
    const json: unknown = text === "" ? null : JSON.parse(text);
    if (response.ok) return json;
    const problem = problemSchema.safeParse(json).data;
    throw new Error(`${method} /api/${path}: ${problem?.detail ?? problem?.title ?? response.status}`);
  }

  async #fetch(path: string, init: RequestInit): Promise<Response> {
    try {
      return await fetch(new URL(`/api/${path}`, this.#url), init);
    } catch (cause) {
      throw new Error(`no server answers at ${this.#url}: start one with npm start`, { cause });
    }
  }
}

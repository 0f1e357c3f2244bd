import { randomUUID } from "node:crypto";
import type { Ask } from "../../shared/asks/ask.ts";
import { askedOf } from "../../shared/asks/asked.ts";
import { playPost } from "../../shared/partners/play.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { Purpose } from "../../shared/protocol/stages.ts";
import { PROTOCOL } from "../../shared/protocol/version.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { TestPanel } from "../live/panel.ts";
import { type Crew, seatAt } from "./crew.ts";

/** A server and its time, in milliseconds. */
export interface Reached {
  readonly url: string;
  now(): number;
}

const SCRIPT = { seed: 5, cart: "Knocker" };

/** Lets the crew leave the posts of its earlier sessions: a person holds posts in one session at a time. */
async function leaveOthers(
  url: string,
  crew: Crew,
  panels: Record<Post, TestPanel>,
  id: string,
): Promise<void> {
  const listed = await fetch(`${url}/api/sessions`, {
    headers: { authorization: `Bearer ${await crew.supervisor.token()}` },
  });
  const rows = (await listed.json()) as { id: string; stage: string }[];
  const others = rows.filter((r) => r.id !== id && r.stage !== "closed" && r.stage !== "abandoned");
  for (const other of others)
    for (const post of POSTS) {
      // Only the device that holds a post leaves it: this moves the post to this device.
      await panels[post].command(other.id, { type: "claimPost", post });
      await panels[post].command(other.id, { type: "leavePost", post });
    }
}

/**
 * Brings a session to the moment at which a test's story begins. Each post answers its asks as a scripted partner
 * would, but at once, over a socket with the seat's own sign-in. The test then touches the panels.
 */
export class Prompter {
  readonly session: string;
  readonly #server: Reached;
  readonly #panels: Record<Post, TestPanel>;
  readonly #pace: number;
  readonly #crew: Crew;
  #shown = false;

  private constructor(
    session: string,
    crew: Crew,
    server: Reached,
    panels: Record<Post, TestPanel>,
    pace: number,
  ) {
    this.session = session;
    this.#crew = crew;
    this.#server = server;
    this.#panels = panels;
    this.#pace = pace;
  }

  /**
   * Plans a session of this aircraft and seats everybody at their post. The panels show it once it was played to the
   * moment of the story: four browsers that draw every step of the way there take most of a test's time.
   * @param pace how many times faster than in an engine the oil warms
   * @param purpose a start, or the return of an aircraft whose engines turn
   */
  static async begin(
    crew: Crew,
    server: Reached,
    aircraft: string,
    pace = 1,
    purpose: Purpose = "start",
  ): Promise<Prompter> {
    const { url } = server;
    const nobody = { cockpit: null, fireGuard: null, groundPower: null, supervisor: null };
    const planned = await fetch(`${url}/api/sessions`, {
      method: "POST",
      headers: {
        authorization: `Bearer ${await crew.supervisor.token()}`,
        "content-type": "application/json",
      },
      body: JSON.stringify({
        commandId: randomUUID(),
        aircraft,
        purpose,
        place: "Stand 4, north apron",
        // Another start of the field may have told of wind, which is judged by the heading.
        headingDeg: 250,
        powerSource: "groundPower",
        crew: nobody,
      }),
    });
    if (!planned.ok) throw new Error(await planned.text());
    const { id } = (await planned.json()) as { id: string };
    const panels = {} as Record<Post, TestPanel>;
    await Promise.all(
      POSTS.map(async (post) => {
        const token = await seatAt(crew, post).token();
        const panel = await new TestPanel(url, { token, proto: PROTOCOL }).settled();
        panels[post] = panel;
        await panel.watch(id);
        // A busy machine can be silent for so long that the link is given up.
        panel.socket.on("disconnect", (why) => {
          if (why !== "io client disconnect") void panel.rejoin(id);
        });
      }),
    );
    await leaveOthers(url, crew, panels, id);
    const prompter = new Prompter(id, crew, server, panels, pace);
    for (const post of POSTS) await prompter.give(post, { type: "claimPost", post });
    return prompter;
  }

  /** Returns the session as every panel of it has it. */
  get state(): SessionState {
    const { state } = this.#panels.supervisor;
    if (!state) throw new Error("it does not watch the session");
    return state;
  }

  /** Returns the events recorded since the panels were opened. */
  get heard(): readonly SessionEvent[] {
    return this.#panels.supervisor.heard;
  }

  /** @throws Error with the reason when the server refuses it */
  async give(post: Post, action: Action): Promise<void> {
    const id = randomUUID();
    const send = () => this.#panels[post].command(this.session, action, { id });
    // Without an answer, because the link was lost, it is sent again: the server acts once on one id.
    let result = await send().catch(send);
    // Crews that answer at once give more in a second than people, and the server asks such a link to wait.
    while (result.status === "error" && result.error === "tooMany") {
      await new Promise((resolve) => setTimeout(resolve, 500));
      result = await send();
    }
    if (result.status !== "accepted" && (result.status !== "duplicate" || result.refusal))
      throw new Error(`${post} ${action.type}: ${JSON.stringify(result)}`);
    await this.until((s) => s.seq >= result.seq);
  }

  /** Resolves when the condition is true for the session. */
  until(is: (state: SessionState) => boolean): Promise<void> {
    return this.#panels.supervisor.until(() => is(this.state));
  }

  /**
   * Lets every post do its part until the condition is true, and then shows the session on every panel.
   * @param before called with each post before it acts; the panels show the session from the beginning
   * @throws Error when no post has anything to do before then
   */
  async playUntil(
    is: (state: SessionState) => boolean,
    before?: (post: Post) => Promise<void>,
  ): Promise<void> {
    if (before) await this.#show();
    const script = { ...SCRIPT, pace: this.#pace };
    while (!is(this.state)) {
      const post = POSTS.find((p) => playPost(this.state, p, this.#server.now(), script));
      if (post) await before?.(post);
      const move = post && playPost(this.state, post, this.#server.now(), script);
      if (!move)
        throw new Error(
          `stuck: ${POSTS.map((p) => `${p}: ${this.asked(p).map((a) => `${a.say} ${JSON.stringify(a.detail)}`)}`).join("; ")}`,
        );
      await this.give(post, move.action);
    }
    await this.#show();
  }

  /** Lets one of the other posts act. Returns false when none of them has anything to do. */
  async playAnother(than: Post): Promise<boolean> {
    const script = { ...SCRIPT, pace: this.#pace };
    for (const post of POSTS.filter((p) => p !== than)) {
      const move = playPost(this.state, post, this.#server.now(), script);
      if (!move) continue;
      await this.give(post, move.action);
      return true;
    }
    return false;
  }

  async #show(): Promise<void> {
    if (this.#shown) return;
    this.#shown = true;
    await Promise.all(this.#crew.all.map((seat) => seat.turnTo(`/session/${this.session}`)));
  }

  /** Returns what is asked of a post now. */
  asked(post: Post): readonly Ask[] {
    return askedOf(this.state, post, this.#server.now());
  }

  close(): void {
    for (const panel of Object.values(this.#panels)) panel.close();
  }
}

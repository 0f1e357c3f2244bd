import { setTimeout } from "node:timers/promises";
import type { Page } from "playwright-core";
import { playPost } from "../../shared/partners/play.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import type { FaultKind } from "../../shared/protocol/rehearsalFaults.ts";
import type { FirePlace } from "../../shared/protocol/signals.ts";
import type { Stage } from "../../shared/protocol/stages.ts";
import { PROTOCOL } from "../../shared/protocol/version.ts";
import { FAULT } from "../../shared/rehearsal/faults.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { say } from "../../shared/words/en.ts";
import type { SeenWorld } from "../../web/net/rehearsals.ts";
import { TestPanel } from "../live/panel.ts";
import { type EntrySeen, onPanel, type PanelSeen } from "./onPanel.ts";
import type { Seat } from "./seat.ts";
import type { TestServer } from "./server.ts";

/** Server time that passes while nothing is asked of the person, milliseconds. A world has steps of a quarter of it. */
const STEP_MS = 1_000;
/** The speed of the world, as a multiple of the clock: the most that a desk can set. */
const SPEED = 4;
/** Looks at the world until it has come as far as the clock. Only a slow machine needs many. */
const LOOKS = 200;
/** Real time between two of them, milliseconds. */
const LOOK_MS = 2;
/** Server time after which a person reads an instrument again that is not where it must be. Milliseconds. */
const READ_AGAIN_MS = 5_000;
/** An entry whose keys are not drawn within this has gone. Milliseconds. */
const GONE_MS = 3_000;
/** An engine that runs by itself turns at least so fast; one on its starter, or hung, does not. Revolutions per minute. */
const RUNS_RPM = 550;
/** Server time after which a person gives an engine up that does not catch. Milliseconds. */
const CRANKS_MS = 12_000;

/** The way a person answers before they are at the panel. */
const BY_SOCKET = { seed: 5, pace: 1, cart: "Knocker" };

const CAUGHT = say.choice("caught", null);
const NO_CATCH = say.choice("startAbandoned", null);

/** A rehearsal to begin, and the post that the person takes. */
interface Begun {
  aircraft: string;
  /** The aircraft's type. */
  type: string;
  script: string;
  seed: number;
  post: Post;
  /** The stage from which the person is at the panel. */
  from: Stage;
}

interface Seated {
  id: string;
  post: Post;
  type: AircraftType;
  token: string;
}

/** Lets a page tell a time that a test moves. To be called before the page loads. */
export async function movable(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const real = Date.now.bind(Date);
    let ahead = 0;
    Date.now = () => real() + ahead;
    addEventListener("pass", (e) => {
      ahead += (e as CustomEvent<number>).detail;
    });
  });
}

function passInPage(page: Page, ms: number): Promise<void> {
  return page.evaluate((by) => void dispatchEvent(new CustomEvent("pass", { detail: by })), ms);
}

/**
 * One person alone at a post of a rehearsal. They do what their panel asks first, with the first key it offers; they
 * read the simulated instruments, and they know which fault in their sight wants a stop from their post. Time passes on
 * the server only while nothing is asked of them.
 */
export class LonePerson {
  readonly #seat: Seat;
  readonly #server: TestServer;
  readonly #id: string;
  readonly #post: Post;
  readonly #type: AircraftType;
  readonly #token: string;
  /** Answers to asks that stay, each with its time. */
  readonly #doneAt = new Map<string, number>();
  /** Faults in sight that they stopped for already. */
  readonly #stopped = new Set<string>();
  #touches = 0;

  private constructor(seat: Seat, server: TestServer, { id, post, type, token }: Seated) {
    this.#seat = seat;
    this.#server = server;
    this.#id = id;
    this.#post = post;
    this.#type = type;
    this.#token = token;
  }

  /** Begins a rehearsal of this aircraft at full speed, and seats the person at their post. */
  static async begin(
    seat: Seat,
    server: TestServer,
    { aircraft, script, seed, post, type, from }: Begun,
  ): Promise<LonePerson> {
    const token = await seat.token();
    const ask = async (path: string, body: object) => {
      const reply = await fetch(`${server.url}/api/rehearsals${path}`, {
        method: "POST",
        headers: { authorization: `Bearer ${token}`, "content-type": "application/json" },
        body: JSON.stringify(body),
      });
      if (!reply.ok) throw new Error(await reply.text());
      return reply;
    };
    const { id } = (await (await ask("", { aircraft, script, seed, post })).json()) as { id: string };
    await ask(`/${id}/desk`, { do: "pace", frozen: false, speed: SPEED });
    const person = new LonePerson(seat, server, { id, post, type: server.type(type), token });
    await person.#comesTo(from);
    await seat.turnTo(`/session/${id}`);
    return person;
  }

  /** Takes the post and answers what is asked up to a stage, as a scripted partner would: at once, over a socket. */
  async #comesTo(stage: Stage): Promise<void> {
    const now = () => this.#server.now();
    const panel = await new TestPanel(this.#server.url, { token: this.#token, proto: PROTOCOL }).settled();
    await panel.watch(this.#id);
    await panel.command(this.#id, { type: "claimPost", post: this.#post });
    while (panel.state?.stage !== stage) {
      const move = panel.state && playPost(panel.state, this.#post, now(), BY_SOCKET);
      const seq = panel.state?.seq ?? 0;
      if (!move || move.notBefore > now()) await this.#waits();
      else {
        const said = await panel.command(this.#id, move.action);
        if (said.status !== "accepted") throw new Error(`${move.key}: ${JSON.stringify(said)}`);
        await panel.until(() => (panel.state?.seq ?? 0) > seq);
      }
    }
    panel.close();
  }

  get id(): string {
    return this.#id;
  }

  /** How often they touched a key that the panel offered. */
  get touches(): number {
    return this.#touches;
  }

  /**
   * Plays until the stage is reached and `onMs` milliseconds more of the server's have passed, or the rehearsal is over.
   * @throws Error when that takes more than twenty minutes of the server's
   */
  async playTo(stage: string, onMs: number): Promise<void> {
    const until = this.#server.now() + 1_200_000;
    let end = Number.POSITIVE_INFINITY;
    for (;;) {
      const [shown, world] = await Promise.all([this.#looks(), this.#world()]);
      if (shown.stage === stage) end = Math.min(end, this.#server.now() + onMs);
      if (world === "over" || this.#server.now() >= end) return;
      const acted = world !== "cutOff" && ((await this.#stops(world)) || (await this.#answers(shown, world)));
      if (!acted) await this.#waits();
      if (this.#server.now() > until) throw new Error(`stuck: ${JSON.stringify(shown)}`);
    }
  }

  #looks(): Promise<PanelSeen> {
    return this.#seat.page.evaluate(onPanel);
  }

  /** Returns what their post sees; the panel draws the same twice a second of real time. */
  async #world(): Promise<SeenWorld | "cutOff" | "over"> {
    const reply = await fetch(`${this.#server.url}/api/rehearsals/${this.#id}/world`, {
      headers: { authorization: `Bearer ${this.#token}` },
    });
    if (reply.ok) return (await reply.json()) as SeenWorld;
    return reply.status === 503 ? "cutOff" : "over";
  }

  async #seconds(): Promise<number | null> {
    const world = await this.#world();
    return typeof world === "string" ? null : world.t;
  }

  /** Lets a second pass on the server and on the panel, and waits until the world has come as far. */
  async #waits(): Promise<void> {
    const before = await this.#seconds();
    this.#server.pass(STEP_MS);
    await passInPage(this.#seat.page, STEP_MS);
    for (let looks = 0; looks < LOOKS; looks += 1) {
      await setTimeout(LOOK_MS);
      const t = await this.#seconds();
      // The last step may be due a little later.
      if (t === null || before === null || t >= before + SPEED * (STEP_MS / 1_000) - SPEED / 4) return;
    }
  }

  /** Stops for a fault in sight, if their post is the one that must. */
  async #stops({ sees }: SeenWorld): Promise<boolean> {
    for (const { fault, engine } of sees) {
      const { says, answers } = FAULT[fault];
      const which = `${fault} ${engine}`;
      // What waits for an instrument or another's word is asked by the panel.
      const mine = says.some(({ from, when }) => !when && from.includes(this.#post));
      if (!mine || this.#stopped.has(which)) continue;
      const key = answers.includes("fire") ? ".stop-fire" : answers.includes("hold") ? ".stop-hold" : null;
      if (key === null) continue;
      this.#stopped.add(which);
      await this.#touch(key);
      if (answers.includes("fire")) await this.#locates(fault, engine);
      return true;
    }
    return false;
  }

  /** Says which engine burns, and where, in the sheet that the stop opened. */
  async #locates(fault: FaultKind, engine: number | null): Promise<void> {
    const place = fault.replace("Fire", "") as FirePlace;
    await this.#touch(`.sheet .number-key >> text="${engine}"`);
    await this.#touch(`.sheet .place-keys .answer >> text="${say.firePlace(place)}"`);
    await this.#touch(".sheet-head .small-key");
  }

  /** Answers what is asked first. Returns false when there is nothing to answer now. */
  async #answers(shown: PanelSeen, world: SeenWorld): Promise<boolean> {
    if (shown.entry) return this.#enters(shown, shown.entry, world);
    if (shown.answers.length === 0) return shown.ask !== "" && shown.queued > 0 && this.#nextInQueue(shown);
    const key = this.#chooses(shown, world);
    if (key === null) return shown.queued > 0 && this.#nextInQueue(shown);
    this.#doneAt.set(shown.ask, this.#server.now());
    return this.#touch(`.ask > .answers > .answer >> nth=${key}`);
  }

  /** Brings what waits behind an ask to the front that cannot be answered yet; once for each second that passes. */
  #nextInQueue({ ask }: PanelSeen): Promise<boolean> | boolean {
    const last = this.#doneAt.get(`behind ${ask}`);
    if (last !== undefined && this.#server.now() - last < READ_AGAIN_MS) return false;
    this.#doneAt.set(`behind ${ask}`, this.#server.now());
    return this.#touch(".queue-row");
  }

  /** Returns the place of the key to touch; null to wait. */
  #chooses({ ask, answers, engine, presses }: PanelSeen, world: SeenWorld): number | null {
    const last = this.#doneAt.get(ask);
    // What was just answered may not be recorded yet.
    if (last !== undefined && this.#server.now() - last < READ_AGAIN_MS) return null;
    const first = answers.findIndex(({ saysNo }) => presses || !saysNo);
    if (first < 0) return null;
    if (answers[first]?.words !== CAUGHT) return first;
    const rpm = world.instruments.find((i) => i.gauge === "rpm" && i.engine === engine)?.reading.value ?? 0;
    if (rpm >= RUNS_RPM) return first;
    const since = this.#doneAt.get(`cranks ${engine}`) ?? this.#server.now();
    this.#doneAt.set(`cranks ${engine}`, since);
    if (this.#server.now() - since <= CRANKS_MS) return null;
    this.#doneAt.delete(`cranks ${engine}`);
    return answers.findIndex(({ words }) => words === NO_CATCH);
  }

  /** Does the next part of an entry. */
  async #enters({ engine }: PanelSeen, entry: EntrySeen, world: SeenWorld): Promise<boolean> {
    const { page } = this.#seat;
    switch (entry.is) {
      case "key":
        return this.#touch(entry.key);
      case "engine":
        return this.#touch(`.ask .number-key >> text="${engine}"`);
      case "words":
        await page.locator(".ask input[name=reason]").fill("Looked at");
        return this.#touch(".ask .entry .answer[data-tone=yes]");
      case "weather":
        await this.#touch(".ask .weather-row >> nth=0 >> .small-key");
        await this.#touch(".ask .weather-row >> nth=1 >> .small-key");
        return this.#touch(".ask .entry .answer[data-tone=yes]");
      case "figure":
        await this.#sets(".ask .entry", entry.value, this.#shows(entry.label, engine, world));
        return this.#touch(".ask .entry .answer[data-tone=yes]");
      case "pad":
        for (const { at, label } of entry.blank) {
          await this.#touch(`.ask .pad-cell >> nth=${at}`);
          await this.#sets(".ask .pad", "–", this.#shows(label, Number.parseInt(label, 10), world));
        }
        return this.#touch(".ask .pad-foot .answer[data-tone=yes]");
    }
  }

  /** Returns the figure of the simulated instrument with this name; null where there is none. */
  #shows(label: string, engine: number | null, { instruments }: SeenWorld): number | null {
    const gauge = this.#type.gauges.find(({ name }) => label.includes(name));
    const shown = instruments.find(
      (i) => i.gauge === gauge?.id && (i.engine === null || i.engine === engine),
    );
    return shown?.reading.value ?? null;
  }

  /** Sets a figure by the keys for more and less; one that no instrument shows is left where the keys begin. */
  async #sets(within: string, shown: string, figure: number | null): Promise<void> {
    const step = async (nth: number) => this.#touch(`${within} .step-key >> nth=${nth}`);
    if (shown === "–") for (const nth of [2, 1]) await step(nth);
    if (figure === null) return;
    const keys = this.#seat.page.locator(`${within} .step-key`);
    const size = async (nth: number) => {
      const text = await keys.nth(nth).textContent({ timeout: GONE_MS });
      return Number(text?.slice(1));
    };
    // Something else may be asked at any moment, and the entry is gone then.
    const [fine, coarse] = await Promise.all([size(2), size(3)]).catch(() => [null, null]);
    if (fine === null || coarse === null) return;
    const at = async () => Number(await this.#value(within));
    for (let left = figure - (await at()); Math.abs(left) >= fine / 2; left = figure - (await at())) {
      const before = left;
      await step(Math.abs(left) >= coarse ? (left > 0 ? 3 : 0) : left > 0 ? 2 : 1);
      // The end of the scale.
      if (figure - (await at()) === before) return;
    }
  }

  async #value(within: string): Promise<string> {
    const { page } = this.#seat;
    const of = within.endsWith(".pad") ? `${within} .pad-cell[data-here] output` : `${within} .entry-number`;
    return (
      (await page
        .locator(of)
        .textContent({ timeout: GONE_MS })
        .catch(() => null)) ?? ""
    );
  }

  /** Touches a key. Returns false when it is not there any more: something more pressing came to the front. */
  async #touch(selector: string): Promise<boolean> {
    const key = this.#seat.page.locator(selector).first();
    const there = await key.evaluateAll(([one]) => {
      if (!(one instanceof HTMLButtonElement) || one.disabled) return false;
      one.click();
      return true;
    });
    if (there) this.#touches += 1;
    return there;
  }
}

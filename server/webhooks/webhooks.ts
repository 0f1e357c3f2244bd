import { readSealed } from "../../shared/evidence/read.ts";
import type { Duty } from "../many/duty.ts";
import type { Sessions } from "../sessions/sessions.ts";
import { Courier, type CourierDeps } from "./courier.ts";
import { webhookBody, webhookKind } from "./kinds.ts";
import type { DeadLetter } from "./progress.ts";
import { sendTo } from "./send.ts";
import type { Target } from "./targets.ts";

/** A webhook as supervisors see it. */
export interface WebhookState {
  name: string;
  host: string;
  kinds: string[];
  /** True when this server sends it; of several servers one does. */
  here: boolean;
  /** Reason for which its newest message waits; null when none does, or when another server sends it. */
  waits: string | null;
}

/** Every webhook of the operator. Of several servers one sends each. */
export class Webhooks {
  readonly #targets: readonly Target[];
  readonly #couriers = new Map<string, Courier>();
  readonly #deps: CourierDeps;
  readonly #giveUp: (() => Promise<void>)[];
  readonly #stop: () => void;

  constructor(deps: CourierDeps & { sessions: Sessions; duty: Duty }, targets: readonly Target[]) {
    this.#deps = deps;
    this.#targets = targets;
    this.#giveUp = targets.map((target) =>
      deps.duty.share(`webhook ${target.name}`, async () => this.#courier(target)),
    );
    this.#stop = deps.sessions.tell({
      recorded: (session) => {
        for (const courier of this.#couriers.values()) courier.moved(session);
      },
      unrecorded() {},
      ramp() {},
    });
  }

  /** Returns each target without its secret. */
  states(): WebhookState[] {
    return this.#targets.map(({ name, url, kinds }) => {
      const courier = this.#couriers.get(name);
      return {
        name,
        host: new URL(url).host,
        kinds,
        here: courier !== undefined,
        waits: courier?.waits ?? null,
      };
    });
  }

  /** Returns the messages that were given up. */
  deadLetters(): Promise<DeadLetter[]> {
    return this.#deps.progress.deadLetters();
  }

  /**
   * Sends a message that was given up once more, as the record has it. Returns why it was not taken; null when it was;
   * undefined when no such message was given up.
   */
  async again(of: Pick<DeadLetter, "target" | "id">): Promise<string | null | undefined> {
    const { progress, store, clock, resolve } = this.#deps;
    const letters = await progress.deadLetters();
    const target = this.#targets.find((t) => t.name === of.target);
    if (!target || !letters.some((l) => l.target === of.target && l.id === of.id)) return undefined;
    const cut = of.id.lastIndexOf(".");
    const seq = Number(of.id.slice(cut + 1));
    const [sealed] = await store.read(of.id.slice(0, cut), seq - 1, 1);
    const event = sealed && readSealed(sealed.body).event;
    const kind = event && webhookKind(event);
    if (!event || !kind) return undefined;
    const message = { id: of.id, body: webhookBody(kind, event), now: clock.now() };
    const status = await sendTo(target, message, resolve).catch((error: Error) => error.message);
    if (typeof status === "string") return status;
    if (status < 200 || status >= 300) return `answered ${status}`;
    await progress.taken(of);
    return null;
  }

  /** Resolves once nothing is being sent any more. */
  async close(): Promise<void> {
    this.#stop();
    await Promise.all(this.#giveUp.map((giveUp) => giveUp()));
  }

  #courier(target: Target): { close(): Promise<void> } {
    const courier = new Courier(this.#deps, target);
    this.#couriers.set(target.name, courier);
    return {
      close: async () => {
        this.#couriers.delete(target.name);
        courier.close();
        await courier.done;
      },
    };
  }
}

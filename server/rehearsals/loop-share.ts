import { performance } from "node:perf_hooks";
import { setImmediate } from "node:timers/promises";
import type { Timers } from "../clock.ts";

/** The part of the server's work that its rehearsals may be together. */
const SHARE = 0.1;
/** Most work that they save up: their part of so much time. Milliseconds. */
const SAVED_MS = 250;
/** Most work that one turn is charged for: a pause of the machine is not its own. Milliseconds. */
const CHARGED_MS = 100;
/** Time until the next look, while a start waits for an answer. Milliseconds. */
const AGAIN_MS = 5;

/** The two measures of a server's event loop, in milliseconds from any moment on. */
export interface LoopMeasure {
  /** Time that passed. */
  passed(): number;
  /** Time for which the loop worked. */
  worked(): number;
}

export const eventLoop: LoopMeasure = {
  passed: () => performance.now(),
  worked: () => performance.eventLoopUtilization().active,
};

export interface LoopShareDeps {
  timers: Timers;
  loop: LoopMeasure;
  /** Whether somebody in a start waits for an answer. */
  startsWait(): boolean;
}

/**
 * Gives the rehearsals of this server their turns, one after another, in the order in which they ask. Together they
 * have a small part of the server's work; a turn that took more is paid back before the next one. No turn begins while
 * a start waits for an answer.
 */
export class LoopShare {
  readonly #deps: LoopShareDeps;
  readonly #asked: (() => Promise<void>)[] = [];
  #giving = false;
  #closed = false;
  #stopWaiting: () => void = () => {};
  /** Work that may be done now; below zero it is paid back first. Milliseconds, counted up to `#countedAt`. */
  #may = SHARE * SAVED_MS;
  #countedAt: number;

  constructor(deps: LoopShareDeps) {
    this.#deps = deps;
    this.#countedAt = deps.loop.passed();
  }

  /** Asks for one turn. The turn must not fail. */
  ask(turn: () => Promise<void>): void {
    this.#asked.push(turn);
    if (!this.#giving) void this.#give();
  }

  close(): void {
    this.#closed = true;
    this.#stopWaiting();
    this.#asked.length = 0;
  }

  async #give(): Promise<void> {
    this.#giving = true;
    while (!this.#closed) {
      const turn = this.#asked[0];
      if (!turn) break;
      const ms = this.#waits();
      if (ms > 0) {
        this.#stopWaiting = this.#deps.timers.after(ms, () => void this.#give());
        return;
      }
      this.#asked.shift();
      const before = this.#deps.loop.worked();
      await turn();
      this.#may -= Math.min(CHARGED_MS, this.#deps.loop.worked() - before);
      // Input for the starts that arrived meanwhile is read first.
      await setImmediate();
    }
    this.#giving = false;
  }

  /** Returns the time until the next turn may begin; 0 for now. */
  #waits(): number {
    const now = this.#deps.loop.passed();
    this.#may = Math.min(SHARE * SAVED_MS, this.#may + SHARE * (now - this.#countedAt));
    this.#countedAt = now;
    if (this.#deps.startsWait()) return AGAIN_MS;
    return this.#may > 0 ? 0 : Math.ceil(1 - this.#may / SHARE);
  }
}

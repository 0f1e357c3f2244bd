import { Counter, collectDefaultMetrics, Gauge, Histogram, Registry } from "prom-client";
import { VERSION } from "../version.ts";
import type { Surrounding } from "./surroundings.ts";
import {
  type AppendTrace,
  type CommandTrace,
  type DeadlineTrace,
  type RefusedTrace,
  TRACES,
} from "./trace.ts";

/** Values read at each scrape instead of counted. */
export interface MetricSources {
  overview(): { live: number; holds: number };
  sockets(): number;
  ready(): Promise<boolean>;
  /** Open streams of server-sent events. */
  streams(): number;
  /** Other servers on the database that told of their panels lately. */
  peers(): number;
  /** Samples of instruments since the start. */
  samples(): { taken: number; refused: number };
  surroundings: readonly Surrounding[];
}

/** A deadline recorded later than this counts as late. Milliseconds. */
const LATE_MS = 1_000;

/** Bucket limits in seconds. */
const SECONDS = [0.0001, 0.0005, 0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5];

/**
 * Metrics of the server for Prometheus. Labels are protocol words only: no names, sessions or devices. It subscribes
 * to `TRACES`, so the measured code does not depend on it.
 */
export class Metrics {
  readonly registry = new Registry();
  readonly #stop: (() => void)[] = [];

  constructor(sources: MetricSources) {
    const registers = [this.registry];
    const commands = new Counter({
      name: "chockside_commands_total",
      help: "Commands by what was asked and what came of it",
      labelNames: ["action", "outcome"],
      registers,
    });
    const refusals = new Counter({
      name: "chockside_refusals_total",
      help: "Refused commands by reason",
      labelNames: ["reason"],
      registers,
    });
    const answers = new Histogram({
      name: "chockside_command_seconds",
      help: "From a command understood to its answer durable",
      buckets: SECONDS,
      registers,
    });
    const appends = new Histogram({
      name: "chockside_append_seconds",
      help: "Until events are durable",
      labelNames: ["kept"],
      buckets: SECONDS,
      registers,
    });
    const deadlines = new Counter({
      name: "chockside_deadlines_total",
      help: "Deadlines recorded",
      registers,
    });
    const late = new Counter({
      name: "chockside_deadlines_late_total",
      help: `Deadlines recorded more than ${LATE_MS} ms after their moment`,
      registers,
    });
    const turnedAway = new Counter({
      name: "chockside_turned_away_total",
      help: "Refused at the door or for want of leave, by what; most of these are not in the log",
      labelNames: ["what"],
      registers,
    });
    const gauge = (name: string, help: string, look: () => Promise<number> | number) =>
      new Gauge({
        name,
        help,
        registers,
        async collect() {
          this.set(await look());
        },
      });
    new Gauge({
      name: "chockside_build_info",
      help: "1, with the version of the program and of Node",
      labelNames: ["version", "node"],
      registers,
    }).set({ version: VERSION, node: process.versions.node }, 1);
    gauge("chockside_sockets", "Open sockets", () => sources.sockets());
    gauge("chockside_ready", "1 while events can be recorded", async () => ((await sources.ready()) ? 1 : 0));
    gauge("chockside_sessions_live", "Sessions that are not over", () => sources.overview().live);
    gauge("chockside_holds_open", "Holds that stand", () => sources.overview().holds);

    gauge("chockside_streams", "Open streams of server-sent events", () => sources.streams());
    gauge("chockside_peers", "Other servers that told of their panels within 5 s", () => sources.peers());
    for (const { name, help, read } of sources.surroundings) gauge(name, help, read);
    new Counter({
      name: "chockside_samples_total",
      help: "Samples of instruments by outcome",
      labelNames: ["outcome"],
      registers,
      collect() {
        this.reset();
        for (const [outcome, count] of Object.entries(sources.samples())) this.inc({ outcome }, count);
      },
    });

    this.#listen(TRACES.command, ({ action, outcome, reason, ms }: CommandTrace) => {
      commands.inc({ action, outcome });
      answers.observe(ms / 1_000);
      if (reason !== null) refusals.inc({ reason });
    });
    this.#listen(TRACES.append, ({ kept, ms }: AppendTrace) => {
      appends.observe({ kept: kept ? "yes" : "no" }, ms / 1_000);
    });
    this.#listen(TRACES.deadline, ({ lateMs }: DeadlineTrace) => {
      deadlines.inc();
      if (lateMs > LATE_MS) late.inc();
    });
    this.#listen(TRACES.refused, ({ what }: RefusedTrace) => turnedAway.inc({ what }));
  }

  /** Adds Node's process metrics: memory, event loop, handles. Call it once per process. */
  withProcess(): void {
    collectDefaultMetrics({ register: this.registry });
  }

  /** Stops counting. */
  close(): void {
    for (const stop of this.#stop) stop();
  }

  #listen<T>(to: (typeof TRACES)[keyof typeof TRACES], heard: (message: T) => void): void {
    const listener = (message: unknown) => heard(message as T);
    to.subscribe(listener);
    this.#stop.push(() => to.unsubscribe(listener));
  }
}

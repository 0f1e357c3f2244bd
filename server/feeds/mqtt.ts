import { readFileSync } from "node:fs";
import type { IClientOptions, IPublishPacket, MqttClient } from "mqtt";
import { AccountUses } from "../auth/account-uses.ts";
import { type Account, type ServiceAccounts, scopeOf } from "../auth/service-accounts.ts";
import type { Clock, Timers } from "../clock.ts";
import type { Feeds } from "./feeds.ts";
import type { MqttSettings } from "./mqtt-settings.ts";
import { samplesIn } from "./samples.ts";

/** Bytes of one message, as of one request. */
const MESSAGE_BYTES = 512 * 1024;
/** The wait before a lost broker is tried again, and before a message whose readings could not be recorded is. Milliseconds. */
const AGAIN_MS = 1_000;

interface MqttDeps {
  feeds: Feeds;
  accounts: Pick<ServiceAccounts, "ofUse">;
  clock: Clock;
  timers: Timers;
  log: Record<"info" | "warn" | "error", (detail: object, message: string) => void>;
}

type Topic =
  | { is: "readings"; account: string; aircraft: string; form: "ndjson" | "csv" }
  | { is: "weather"; account: string; place: string };

/**
 * Takes readings and reports that a broker passes on. A message is answered once it is recorded, so that the broker
 * sends it again when this server or the link to it was lost; what was taken already is not taken twice, because no
 * gauge has two readings of one moment.
 */
export class MqttFeeds {
  readonly #deps: MqttDeps;
  readonly #topics: ReadonlyMap<string, Topic>;
  readonly #uses: AccountUses;
  readonly #client: MqttClient;
  #closed = false;
  #rest: () => void = () => {};
  #connected = false;

  private constructor(deps: MqttDeps, settings: MqttSettings, client: MqttClient) {
    this.#deps = deps;
    this.#uses = new AccountUses(deps.log, () => deps.clock.now());
    this.#topics = new Map<string, Topic>([
      ...settings.readings.map(({ topic, ...to }) => [topic, { is: "readings", ...to }] as const),
      ...settings.weather.map(({ topic, ...to }) => [topic, { is: "weather", ...to }] as const),
    ]);
    this.#client = client;
    client.handleMessage = (packet, answer) => void this.#take(packet).then((took) => took && answer());
    client.on("connect", () => this.#connect(settings.url));
    client.on("close", () => this.#lost());
    // Whatever the fault: the client goes on trying, and the closed link is logged.
    client.on("error", (error) => deps.log.warn({ err: error }, "the MQTT broker is in trouble"));
  }

  /** Begins to take messages. The broker need not be there yet. */
  static async begin(deps: MqttDeps, settings: MqttSettings): Promise<MqttFeeds> {
    // Loaded only where a broker is named.
    const { connect } = await import("mqtt");
    const { url, clientId, username, password, ca } = settings;
    const options: IClientOptions = {
      ...{ clientId, clean: false, protocolVersion: 4, reconnectPeriod: AGAIN_MS, resubscribe: false },
      ...(username === undefined ? {} : { username }),
      ...(password === undefined ? {} : { password }),
      ...(ca === undefined ? {} : { ca: readFileSync(ca) }),
      manualConnect: true,
    };
    const client = connect(url, options);
    const feeds = new MqttFeeds(deps, settings, client);
    client.connect();
    return feeds;
  }

  /** True while the broker is reached. */
  get connected(): boolean {
    return this.#connected;
  }

  async close(): Promise<void> {
    this.#closed = true;
    this.#rest();
    await this.#client.endAsync(true);
  }

  #connect(url: string): void {
    this.#connected = true;
    const { log } = this.#deps;
    log.info({ broker: new URL(url).host }, "the MQTT broker is reached");
    this.#client.subscribe([...this.#topics.keys()], { qos: 1 }, (error) => {
      // A broker that refuses a topic does so again after the next connection.
      if (error && !this.#closed) log.error({ err: error }, "the MQTT broker refused a topic");
    });
  }

  #lost(): void {
    if (this.#connected && !this.#closed) this.#deps.log.warn({}, "the MQTT broker is not reached");
    this.#connected = false;
  }

  /** Returns true once the message is dealt with; false when this server stops before. */
  async #take(packet: IPublishPacket): Promise<boolean> {
    while (!this.#closed)
      try {
        await this.#takeOnce(packet.topic, Buffer.from(packet.payload));
        return true;
      } catch (error) {
        this.#deps.log.error({ err: error, topic: packet.topic }, "a message could not be recorded yet");
        await this.#wait();
      }
    return false;
  }

  async #takeOnce(name: string, payload: Buffer): Promise<void> {
    const topic = this.#topics.get(name);
    if (!topic) return this.#refuse(name, "unknown topic");
    const account = await this.#deps.accounts.ofUse(topic.account);
    if (!account || !allows(account, topic)) return this.#refuse(name, "its account may not send it");
    if (payload.length > MESSAGE_BYTES) return this.#refuse(name, "too long");
    this.#uses.used(account.id, { path: `mqtt ${name}` });
    const text = payload.toString("utf8");
    if (topic.is === "weather") {
      const { faulty } = await this.#deps.feeds.station(account, topic.place, text.trim());
      return faulty ? this.#refuse(name, "the report cannot be read") : undefined;
    }
    const lines = samplesIn(text, topic.form);
    if (!lines) return this.#refuse(name, "too many lines, or other columns");
    await this.#deps.feeds.take(account, topic.aircraft, lines);
  }

  #refuse(topic: string, why: string): void {
    this.#deps.log.warn({ topic, why }, "a message was refused");
  }

  #wait(): Promise<void> {
    return new Promise((resolve) => {
      const stop = this.#deps.timers.after(AGAIN_MS, resolve);
      this.#rest = () => {
        stop();
        resolve();
      };
    });
  }
}

function allows(account: Account, topic: Topic): boolean {
  return topic.is === "readings"
    ? scopeOf(account, "pushReadings", (scope) => scope.aircraft === topic.aircraft) !== undefined
    : scopeOf(account, "pushWeather", (scope) => scope.place === topic.place) !== undefined;
}

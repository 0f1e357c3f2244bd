import { readFileSync } from "node:fs";
import { hostname } from "node:os";
import { Writable } from "node:stream";
import { connect, type TLSSocket } from "node:tls";
import type { Timers } from "./clock.ts";

/** Lines kept while the receiver is away: the oldest are dropped first, and counted in a line of their own. */
const KEPT = 10_000;
/** The wait before a lost receiver is tried again. Milliseconds. */
const AGAIN_MS = 1_000;
/** A link that opens no later than this is tried anew. Milliseconds. */
const OPEN_MS = 5_000;

/** Facilities of RFC 5424 6.2.1: "log audit" for who did what, "local use 0" for the rest. */
const AUDIT = 13;
const LOCAL0 = 16;

const SEVERITIES: readonly [least: number, severity: number][] = [
  [60, 2],
  [50, 3],
  [40, 4],
  [30, 6],
  [0, 7],
];

/** Returns a log line as one message of RFC 5424 in a frame of RFC 5425 4.3.1. */
export function syslogFrame(line: string, host: string): Buffer {
  const {
    level = 30,
    time = 0,
    audit,
  } = JSON.parse(line) as { level?: number; time?: number; audit?: string };
  const severity = SEVERITIES.find(([least]) => level >= least)?.[1] ?? 7;
  const facility = audit === undefined ? LOCAL0 : AUDIT;
  const head = `<${facility * 8 + severity}>1 ${new Date(time).toISOString()} ${host} chockside ${process.pid}`;
  const message = Buffer.from(`${head} ${audit === undefined ? "-" : "audit"} - ${line}`, "utf8");
  return Buffer.concat([Buffer.from(`${message.length} `, "ascii"), message]);
}

export interface SyslogDeps {
  timers: Timers;
  now(): number;
  /** Tells on standard output that the receiver is lost or back. */
  say(words: string): void;
}

/**
 * Sends every log line to a receiver over TLS that checks its certificate. Lines wait in memory while it is away. A
 * receiver does not answer: what it took into a link that then broke may be lost, and what it may not have taken is sent
 * again.
 */
export class Syslog extends Writable {
  readonly #to: { host: string; port: number; ca: Buffer | null };
  readonly #deps: SyslogDeps;
  readonly #host =
    hostname()
      .replaceAll(/[^\x21-\x7e]/g, "-")
      .slice(0, 255) || "-";
  /** Frames that are not known to be gone to the receiver, the oldest first. */
  readonly #waiting: Buffer[] = [];
  /** Number of them that the present link has been given. */
  #given = 0;
  #dropped = 0;
  #socket: TLSSocket | null = null;
  #wasUp: boolean | null = null;
  #stop: () => void = () => {};
  #ended = false;

  /** @param url `tls://host:port`; @param ca PEM file of the receiver's authority, or null for the system's */
  constructor(url: string, ca: string | null, deps: SyslogDeps) {
    super({ decodeStrings: false });
    const { hostname: host, port } = new URL(url);
    this.#to = {
      host: host.replace(/^\[|\]$/g, ""),
      port: Number(port || 6514),
      ca: ca === null ? null : readFileSync(ca),
    };
    this.#deps = deps;
    this.#open();
  }

  /** Lines that wait for the receiver. */
  get waiting(): number {
    return this.#waiting.length;
  }

  override _write(line: string | Buffer, _encoding: BufferEncoding, done: () => void): void {
    for (const each of String(line).split("\n")) if (each !== "") this.#add(syslogFrame(each, this.#host));
    this.#flush();
    // Nothing in the program waits for the receiver.
    done();
  }

  /** Gives up what waits, and closes the link. */
  override _destroy(_error: Error | null, done: () => void): void {
    this.#ended = true;
    this.#stop();
    this.#socket?.destroy();
    done();
  }

  #add(frame: Buffer): void {
    this.#waiting.push(frame);
    const over = this.#waiting.length - KEPT;
    if (over <= 0) return;
    this.#waiting.splice(0, over);
    this.#given = Math.max(0, this.#given - over);
    this.#dropped += over;
  }

  #open(): void {
    const { host, port, ca } = this.#to;
    const socket = connect({ host, port, minVersion: "TLSv1.2", ...(ca ? { ca } : {}), timeout: OPEN_MS });
    this.#socket = socket;
    this.#given = 0;
    socket.on("secureConnect", () => {
      socket.setTimeout(0);
      this.#isUp(true);
      this.#flush();
    });
    socket.on("timeout", () => socket.destroy());
    // The cause is told by the doctor; here it only matters that the link is gone.
    socket.on("error", () => {});
    // A receiver says nothing; reading notices its end.
    socket.resume();
    socket.on("close", () => {
      if (this.#ended || this.#socket !== socket) return;
      this.#isUp(false);
      this.#stop = this.#deps.timers.after(AGAIN_MS, () => this.#open());
    });
  }

  #flush(): void {
    const socket = this.#socket;
    if (!socket || !this.#wasUp) return;
    if (this.#dropped > 0) {
      const told = {
        level: 50,
        time: this.#deps.now(),
        msg: "log lines were dropped",
        dropped: this.#dropped,
      };
      this.#dropped = 0;
      this.#waiting.splice(this.#given, 0, syslogFrame(JSON.stringify(told), this.#host));
    }
    while (this.#given < this.#waiting.length) {
      const frame = this.#waiting[this.#given] as Buffer;
      this.#given += 1;
      socket.write(frame, (error) => {
        // Gone from this process; one that failed waits for the next link.
        if (error || this.#socket !== socket) return;
        const at = this.#waiting.indexOf(frame);
        if (at < 0) return;
        this.#waiting.splice(at, 1);
        this.#given -= 1;
      });
    }
  }

  #isUp(up: boolean): void {
    if (up !== this.#wasUp)
      this.#deps.say(`syslog is ${up ? "reached" : "not reached: lines wait in memory"}`);
    this.#wasUp = up;
  }
}

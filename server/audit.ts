import { networkOf } from "./peer.ts";
import { TRACES } from "./telemetry/trace.ts";

export interface AuditDetail {
  /** Id of the signed-in person, if any. */
  person?: string | undefined;
  device?: string | undefined;
  /** Id of the service account, if it is one. */
  account?: string | undefined;
  /** Acts of the same kind and source since the last line that have no line of their own. */
  more?: number | undefined;
  /** IP address the request came from. */
  address?: string | undefined;
  path?: string | undefined;
}

interface AuditLog {
  info(detail: object, message: string): void;
  warn(detail: object, message: string): void;
}

/** Returns a function that logs one line per act, under the key `audit`. Request contents are never logged: they may hold a PIN. */
export function auditTo(log: Pick<AuditLog, "info">): { done(what: string, detail: AuditDetail): void } {
  return { done: (audit, detail) => log.info({ audit, ...detail }, "done") };
}

/** After a refusal is logged, more of the same kind and source are only counted for this long. Milliseconds. */
const PERIOD_MS = 60_000;
/** Refusals logged per period, from all sources together. */
const LINES = 500;

/**
 * Logs refusals: per minute the first of each kind from each source, at most 500 lines. The rest are counted and told in
 * one line after the minute. A source is a person, or the network of an address.
 */
export class Refusals {
  readonly #log: Pick<AuditLog, "warn">;
  readonly #now: () => number;
  readonly #written = new Set<string>();
  #began = 0;
  #unwritten = 0;

  constructor(log: Pick<AuditLog, "warn">, now: () => number) {
    this.#log = log;
    this.#now = now;
  }

  refused(what: string, detail: AuditDetail): void {
    TRACES.refused.publish({ what });
    const now = this.#now();
    if (now - this.#began >= PERIOD_MS) this.#anew(now);
    const source = `${what} ${detail.person ?? detail.account ?? networkOf(detail.address ?? "")}`;
    if (this.#written.has(source) || this.#written.size >= LINES) {
      this.#unwritten += 1;
      return;
    }
    this.#written.add(source);
    this.#log.warn({ audit: what, ...detail }, "refused");
  }

  #anew(now: number): void {
    if (this.#unwritten > 0) this.#log.warn({ audit: "refusals", more: this.#unwritten }, "refused");
    this.#began = now;
    this.#unwritten = 0;
    this.#written.clear();
  }
}

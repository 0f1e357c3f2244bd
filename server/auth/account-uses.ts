import { type AuditDetail, auditTo } from "../audit.ts";

/** After a use is logged, more of the same account at the same place are only counted for this long. Milliseconds. */
const PERIOD_MS = 60_000;
/** Accounts and places that are counted. When there are more, all begin anew. */
const KEPT = 2_000;

/** Logs the uses of service accounts: the first a minute of each at each place, with how many came before it unlogged. */
export class AccountUses {
  readonly #log: Parameters<typeof auditTo>[0];
  readonly #now: () => number;
  readonly #kept = new Map<string, { at: number; more: number }>();

  constructor(log: Parameters<typeof auditTo>[0], now: () => number) {
    this.#log = log;
    this.#now = now;
  }

  used(account: string, detail: Pick<AuditDetail, "address" | "path">): void {
    const key = `${account} ${detail.path}`;
    const known = this.#kept.get(key);
    const now = this.#now();
    if (known && now - known.at < PERIOD_MS) {
      known.more += 1;
      return;
    }
    if (this.#kept.size >= KEPT) this.#kept.clear();
    this.#kept.set(key, { at: now, more: 0 });
    auditTo(this.#log).done("accountUsed", { account, ...detail, more: known?.more ?? 0 });
  }
}

import {
  isOfUse,
  type Scope,
  type ScopeKind,
  serviceAccountSchema,
} from "../../shared/house/serviceAccount.ts";
import type { ServiceAccounts } from "../auth/service-accounts.ts";
import { StartRefused } from "../start-refused.ts";
import { checked } from "./checked.ts";
import type { By } from "./entries.ts";

export const ACCOUNT_USAGE = `       npm run house -- accounts
       npm run house -- accounts add "<name>" <last day> <scope> [<scope> …]
       npm run house -- accounts revoke <id>
         scope: readRecords, readLive, dueCalendar, pushReadings=<registration> or "pushWeather=<field>"`;

/** Returns a scope as it is entered and listed. */
function scopeText(scope: Scope): string {
  switch (scope.is) {
    case "readRecords":
    case "readLive":
    case "dueCalendar":
      return scope.is;
    case "pushReadings":
      return `${scope.is}=${scope.aircraft}`;
    case "pushWeather":
      return `${scope.is}=${scope.place}`;
  }
}

/** Returns the scope as entered. The schema then refuses what is no scope. */
function scopeIn(text: string): unknown {
  const at = text.indexOf("=");
  const is = at < 0 ? text : text.slice(0, at);
  const of = text.slice(at + 1);
  const fields: Partial<Record<string, object>> & Record<ScopeKind, object> = {
    readRecords: {},
    readLive: {},
    dueCalendar: {},
    pushReadings: { aircraft: of },
    pushWeather: { place: of },
  };
  return { is, ...fields[is] };
}

export async function listAccounts(accounts: ServiceAccounts, by: By, now: number): Promise<void> {
  for (const account of await accounts.all(by)) {
    const { id, name, until, revoked, scopes } = account;
    const how = revoked ? "revoked" : isOfUse(account, now) ? `until ${until}` : `ended ${until}`;
    console.log(`${id}  ${name}: ${scopes.map(scopeText).join(", ")}; ${how}`);
  }
}

export async function addAccount(
  accounts: ServiceAccounts,
  by: By,
  [name, until, ...scopes]: string[],
): Promise<void> {
  if (!name || !until || scopes.length === 0) throw new StartRefused(ACCOUNT_USAGE);
  const entered = serviceAccountSchema.pick({ name: true, until: true, scopes: true });
  const made = checked(entered.safeParse({ name, until, scopes: scopes.map(scopeIn) }), ACCOUNT_USAGE);
  const { id, token } = await accounts.add(by, made);
  console.log(`${made.name} is the service account ${id}. Its token is shown only now:`);
  console.log(`    ${token}`);
}

export async function revokeAccount(
  accounts: ServiceAccounts,
  by: By,
  [id, ...more]: string[],
): Promise<void> {
  if (!id || more.length > 0) throw new StartRefused(ACCOUNT_USAGE);
  await accounts.revoke(by, id);
  console.log(`${id} has ended`);
}

import type { Scope, ServiceAccount } from "../../shared/house/serviceAccount.ts";
import { api } from "./app.ts";

export type AccountRow = Omit<ServiceAccount, "secretHash">;

/** Requests about the accounts of other systems. */
export const accounts = {
  list: () => api.pages<AccountRow>("/api/service-accounts"),
  /** The token comes with this answer and never again. */
  make: (made: { name: string; until: string; scopes: Scope[] }) =>
    api.json<{ id: string; token: string }>("POST", "/api/service-accounts", made),
  revoke: (id: string) => api.send("POST", `/api/service-accounts/${id}/revocation`),
};

import { api } from "./app.ts";

/** The operator's webhooks, and the messages that were given up. */
export interface WebhooksNow {
  targets: { name: string; host: string; kinds: string[]; here: boolean; waits: string | null }[];
  givenUp: { at: string; target: string; id: string; kind: string; why: string }[];
}

/** Requests about webhooks. */
export const webhooks = {
  now: () => api.json<WebhooksNow>("GET", "/api/webhooks"),
  again: ({ target, id }: { target: string; id: string }) =>
    api.json<{ why: string | null }>("POST", "/api/webhooks/again", { target, id }),
};

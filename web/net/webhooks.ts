import { api } from "./app.ts";

/** A webhook of the operator. */
interface WebhookRow {
  name: string;
  host: string;
  kinds: string[];
  here: boolean;
  waits: string | null;
}

/** A message that was given up. */
interface GivenUp {
  at: string;
  target: string;
  id: string;
  kind: string;
  why: string;
}

/** The operator's webhooks, and the messages that were given up, the newest first. */
export interface WebhooksNow {
  targets: WebhookRow[];
  givenUp: GivenUp[];
}

/** Requests about webhooks. */
export const webhooks = {
  async now(): Promise<WebhooksNow> {
    const [targets, givenUp] = await Promise.all([
      api.json<WebhookRow[]>("GET", "/api/webhooks"),
      api.pages<GivenUp>("/api/webhooks/given-up"),
    ]);
    return { targets, givenUp };
  },
  again: ({ target, id }: { target: string; id: string }) =>
    api.json<{ why: string | null }>("POST", "/api/webhooks/again", { target, id }),
};

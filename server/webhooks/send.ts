import { createHmac } from "node:crypto";
import { request as requestHttp } from "node:http";
import { request as requestHttps } from "node:https";
import { pinned, type Resolve } from "./address.ts";
import type { Target } from "./targets.ts";

const ANSWER_MS = 10_000;

/** Returns the signature of a message (Standard Webhooks 1.0.0, symmetric). `seconds`: since 1970. */
export function signature(secret: string, id: string, seconds: number, body: string): string {
  const key = Buffer.from(secret.replace(/^whsec_/, ""), "base64");
  return `v1,${createHmac("sha256", key).update(`${id}.${seconds}.${body}`).digest("base64")}`;
}

/**
 * Sends one message. Resolves to the status of the answer. A redirect is not followed: it is an answer like another.
 * @throws Error when the target cannot be reached, and AddressRefused when it must not be
 */
export async function sendTo(
  target: Target,
  { id, body, now }: { id: string; body: string; now: number },
  resolve: Resolve,
): Promise<number> {
  const url = new URL(target.url);
  const to = await pinned(url.hostname, target.networks, resolve);
  const seconds = Math.floor(now / 1000);
  const request = url.protocol === "https:" ? requestHttps : requestHttp;
  return new Promise((done, failed) => {
    const sent = request(
      url,
      {
        method: "POST",
        agent: false,
        timeout: ANSWER_MS,
        signal: AbortSignal.timeout(ANSWER_MS),
        // The address that was judged, whatever the name says now.
        lookup: (_host, options, answer) =>
          options.all ? answer(null, [to]) : answer(null, to.address, to.family),
        headers: {
          "content-type": "application/json",
          "content-length": Buffer.byteLength(body),
          "user-agent": "chockside",
          "webhook-id": id,
          "webhook-timestamp": String(seconds),
          "webhook-signature": signature(target.secret, id, seconds, body),
        },
      },
      (answer) => {
        // Nobody reads the body: what the target says goes nowhere.
        answer.destroy();
        done(answer.statusCode ?? 0);
      },
    );
    sent.on("timeout", () => sent.destroy(new Error("no answer in time")));
    sent.on("error", failed);
    sent.end(body);
  });
}

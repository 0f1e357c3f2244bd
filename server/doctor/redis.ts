import { createClient } from "@redis/client";
import { STREAM } from "../many/redis-bus.ts";
import { bad, type Finding, ok } from "./finding.ts";

const AT = "Redis";
/** Longest wait for the connection and for each answer. Milliseconds. */
const WAIT_MS = 2_000;

/**
 * Asks Redis for what a server needs of it: a connection, a sign-in and the stream of hints. Writes nothing.
 * @param url from the settings; nothing of it is printed
 */
export async function redisFinding(url: string, waitMs = WAIT_MS): Promise<Finding> {
  let fault: Error | null = null;
  const client = createClient({
    url,
    disableOfflineQueue: true,
    socket: { connectTimeout: waitMs, socketTimeout: waitMs, reconnectStrategy: false },
  });
  client.on("error", (error: Error) => {
    fault ??= error;
  });
  try {
    await within(waitMs, client.connect());
    await within(waitMs, client.ping());
    await within(waitMs, client.xRevRange(STREAM, "+", "-", { COUNT: 1 }));
    return ok(AT, "answers, and lets this user read the servers' stream");
  } catch (error) {
    return bad(
      AT,
      `does not serve: ${reason(fault ?? (error as Error))}`,
      "check REDIS_URL, that Redis runs, and its user's rights: until then panels of other servers see events later",
    );
  } finally {
    client.destroy();
  }
}

function within<T>(ms: number, answer: Promise<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error(`no answer within ${ms / 1_000} s`)), ms);
    answer.then(resolve, reject).finally(() => clearTimeout(timer));
  });
}

/** A refused connection to several addresses has no message of its own. */
function reason(error: Error): string {
  return error.message || String((error as { code?: unknown }).code ?? error.name);
}

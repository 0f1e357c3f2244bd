import { existsSync, statSync } from "node:fs";
import { openTls, type TlsChoice } from "../tls.ts";
import { bad, type Finding, ok, watch } from "./finding.ts";

const AT = "certificate";

/** Checks the certificate that the server would use. Makes none. */
export async function certificate(choice: TlsChoice, now: number): Promise<Finding> {
  if (choice.is === "off") return ok(AT, "none: the server speaks plain HTTP");
  const { cert, key } = choice;
  if (choice.is === "own" && !existsSync(cert)) return ok(AT, `the next start makes one: ${cert}`);
  try {
    const tls = await openTls({ is: "files", cert, key }, now);
    // Windows has no such permission bits.
    if (process.platform !== "win32" && (statSync(key).mode & 0o077) !== 0) {
      const [says, todo] = [
        `${key} can be read by others`,
        `run chmod 600 ${key}, and consider whether somebody copied it`,
      ];
      return choice.is === "own" ? bad(AT, says, todo) : watch(AT, says, todo);
    }
    const authority = choice.is === "own" && existsSync(choice.rootKey) ? choice.rootKey : null;
    if (authority !== null && process.platform !== "win32" && (statSync(authority).mode & 0o077) !== 0)
      return bad(AT, `${authority} can be read by others`, `run chmod 600 ${authority}`);
    if (tls?.advice) {
      const todo = choice.is === "own" ? "restart the server: it makes a new one" : "put a new one there";
      return watch(AT, tls.advice, `${todo}, and tell every device to trust it`);
    }
    return ok(AT, `${cert}, SHA-256 ${tls?.fingerprint}`);
  } catch (error) {
    return bad(
      AT,
      (error as Error).message,
      "put a certificate and its key there, or remove both for a new one",
    );
  }
}

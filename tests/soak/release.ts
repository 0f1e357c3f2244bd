import { execFileSync, spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { chownSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
/** The user "nobody". */
const NOBODY = 65_534;
const START_MS = 30_000;

/**
 * Builds the archive, checks its digest, unpacks it in a path with spaces, and starts it as another user, with no npm
 * and no way to a registry. Rejects when it does not serve its panels and its API.
 */
export async function tryRelease(say: (line: string) => void): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), "chockside release "));
  try {
    const packed = join(folder, "packed here");
    const data = join(folder, "its data");
    for (const path of [packed, data]) mkdirSync(path);
    execFileSync(process.execPath, ["server/scripts/release.mjs", packed], { cwd: ROOT, stdio: "inherit" });
    const names = readdirSync(packed);
    const archive = names.find((name) => name.endsWith(".tar.gz")) ?? "none";
    const digest = createHash("sha256")
      .update(readFileSync(join(packed, archive)))
      .digest("hex");
    if (
      readFileSync(join(packed, `${archive}.sha256`), "utf8") !==
      `${digest}  ${archive}
`
    )
      throw new Error("the digest beside the archive is another");
    if (!names.some((name) => name.endsWith(".cdx.json"))) throw new Error("no list of packages");
    execFileSync("tar", ["-xzf", archive], { cwd: packed });
    execFileSync("chmod", ["-R", "a+rX", folder]);
    const root = process.getuid?.() === 0;
    if (root) chownSync(data, NOBODY, NOBODY);
    say(root ? "started as another user" : "started as the same user: only root may start as another one");
    await started(
      join(packed, archive.replace(/\.tar\.gz$/, "")),
      data,
      root ? { uid: NOBODY, gid: NOBODY } : {},
    );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

async function started(cwd: string, data: string, user: { uid?: number; gid?: number }): Promise<void> {
  const env = {
    ...{ PORT: "0", CHOCKSIDE_DATA: join(data, "chockside.db"), CHOCKSIDE_LOG: "warn" },
    // Whoever tried to fetch something would fail here.
    ...{ PATH: "/nowhere", npm_config_registry: "http://127.0.0.1:9", HTTPS_PROXY: "http://127.0.0.1:9" },
  };
  const server = spawn(process.execPath, ["--enable-source-maps", "server/dist/main.js"], {
    cwd,
    env,
    ...user,
  });
  let said = "";
  server.stderr.on("data", (chunk) => {
    said += chunk;
  });
  try {
    const url = await new Promise<string>((resolve, reject) => {
      server.stdout.on("data", (chunk) => {
        said += chunk;
        const found = /listening on (http:\S+)/.exec(said)?.[1];
        if (found !== undefined) resolve(found);
      });
      server.once("exit", () => reject(new Error(`it ended: ${said}`)));
      setTimeout(() => reject(new Error(`it did not start: ${said}`)), START_MS).unref();
    });
    for (const path of ["/health/ready", "/docs/json", "/"]) {
      const reply = await fetch(`${url}${path}`);
      if (!reply.ok) throw new Error(`${path} answered ${reply.status}: ${said}`);
    }
  } finally {
    server.kill("SIGTERM");
  }
}

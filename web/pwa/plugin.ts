import { createHash } from "node:crypto";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { build } from "esbuild";
import type { Plugin } from "vite";
import { drawIcon } from "./drawIcons.ts";
import type { Shell } from "./shell.ts";

const WORKER = fileURLToPath(new URL("worker.ts", import.meta.url));

/**
 * Share of the side left empty on each edge of a maskable icon, because a launcher may crop it (W3C manifest: safe
 * zone of 40 % radius).
 */
const MASKED = 0.14;

/** Source maps serve only developers, and every browser with service workers reads WOFF2. */
const NOT_KEPT = /(\.map|\.woff|\.gz|^\/sw\.js)$/;

/** Text files are served compressed: about a third of the bytes over a poor network. */
const PACKED = /\.(js|css|html|svg|webmanifest)$/;

/** Returns the files of the build in `folder` with their digests, and a version derived from them all. */
export function shellOf(folder: string): Shell {
  const files = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .map((path) => ({ path, url: path.slice(folder.length).replaceAll("\\", "/") }))
    .filter(({ url }) => !NOT_KEPT.test(url))
    .sort((a, b) => (a.url < b.url ? -1 : 1))
    .map(({ path, url }) => {
      const digest = createHash("sha256").update(readFileSync(path)).digest("base64");
      return { url, integrity: `sha256-${digest}` };
    });
  const version = createHash("sha256").update(JSON.stringify(files)).digest("hex").slice(0, 16);
  return { version, files };
}

/** Writes a gzip copy beside each text file of the build. */
export function pack(folder: string): void {
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile() || !PACKED.test(entry.name)) continue;
    const path = join(entry.parentPath, entry.name);
    writeFileSync(`${path}.gz`, gzipSync(readFileSync(path), { level: 9 }));
  }
}

/** Makes the panels installable: draws the icons and writes a service worker for exactly this build. */
export function installable(): Plugin {
  return {
    name: "chockside-installable",
    apply: "build",
    writeBundle: {
      order: "post",
      sequential: true,
      async handler({ dir }) {
        if (!dir) throw new Error("the panels are built into a folder");
        writeFileSync(join(dir, "icon-192.png"), drawIcon(192, 0));
        writeFileSync(join(dir, "icon-512.png"), drawIcon(512, 0));
        writeFileSync(join(dir, "icon-maskable-512.png"), drawIcon(512, MASKED));
        const made = await build({
          entryPoints: [WORKER],
          bundle: true,
          write: false,
          minify: true,
          format: "iife",
          target: "es2022",
          define: { SHELL: JSON.stringify(shellOf(dir)) },
        });
        writeFileSync(join(dir, "sw.js"), made.outputFiles[0]?.text ?? "");
        pack(dir);
      },
    },
  };
}

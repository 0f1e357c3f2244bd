import { createHash } from "node:crypto";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { inflateSync } from "node:zlib";
import { afterAll, beforeAll, expect, it } from "vitest";
import { drawIcon, MARK } from "../../web/pwa/drawIcons.ts";
import { shellOf } from "../../web/pwa/plugin.ts";
import { cacheName, outdated, type Shell, sourceOf } from "../../web/pwa/shell.ts";

const PUBLIC = fileURLToPath(new URL("../../web/public", import.meta.url));

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "chockside-shell-"));
  mkdirSync(join(folder, "assets"));
  for (const name of [
    "index.html",
    "sw.js",
    "assets/a-1.js",
    "assets/a-1.js.map",
    "assets/f-1.woff",
    "assets/f-1.woff2",
  ])
    writeFileSync(join(folder, name), name);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it("[PWA-1] everything a panel is drawn from is kept, with its digest, and neither maps nor the worker itself", () => {
  const shell = shellOf(folder);
  expect(shell.files.map((f) => f.url)).toEqual(["/assets/a-1.js", "/assets/f-1.woff2", "/index.html"]);
  const page = createHash("sha256").update("index.html").digest("base64");
  expect(shell.files.at(-1)?.integrity).toBe(`sha256-${page}`);
});

it("[PWA-3] one changed byte makes another version, the same bytes the same", () => {
  const before = shellOf(folder);
  expect(shellOf(folder)).toEqual(before);
  writeFileSync(join(folder, "assets/a-1.js"), "changed");
  const after = shellOf(folder);
  writeFileSync(join(folder, "assets/a-1.js"), "assets/a-1.js");
  expect(after.version).not.toBe(before.version);
  expect(cacheName(after)).not.toBe(cacheName(before));
});

const SHELL: Shell = { version: "2", files: [{ url: "/mark.svg", integrity: "" }] };
const from = (path: string, navigates = false, method = "GET") =>
  sourceOf(SHELL, { method, path, navigates });

it("[PWA-2] what the server alone knows comes from the network, also when a page is asked for", () => {
  for (const path of ["/api", "/api/sessions", "/live/?EIO=4", "/live/", "/health/live", "/docs/json"])
    for (const navigates of [true, false]) expect(from(path, navigates), path).toEqual({ is: "network" });
  expect(from("/mark.svg", false, "POST")).toEqual({ is: "network" });
  expect(from("/none.txt")).toEqual({ is: "network" });
});

it("[PWA-1] any page address of the panels is answered with the kept page, a kept file with itself", () => {
  for (const path of ["/", "/session/abc", "/plan", "/apiary", "/types/x/1"])
    expect(from(path, true), path).toEqual({ is: "page" });
  expect(from("/mark.svg")).toEqual({ is: "file", url: "/mark.svg" });
});

it("[PWA-3] the version before stays for windows not yet loaded anew; older ones and nobody else's are dropped", () => {
  const name = (version: string) => cacheName({ version, files: [] });
  expect(outdated([name("0"), "other", name("1"), name("2")], name("2"))).toEqual([name("0")]);
  expect(outdated([name("1"), name("2")], name("2"))).toEqual([]);
  expect(outdated([name("2")], name("2"))).toEqual([]);
});

/** Returns the pixels of a PNG in the form of our icons: eight-bit RGB, no filter. */
function pixels(png: Buffer): { size: number; at(x: number, y: number): number[] } {
  expect(png.subarray(1, 4).toString()).toBe("PNG");
  const size = png.readUInt32BE(16);
  const length = png.readUInt32BE(33);
  const rows = inflateSync(png.subarray(41, 41 + length));
  return { size, at: (x, y) => [...rows.subarray(y * (1 + size * 3) + 1 + x * 3).subarray(0, 3)] };
}

it("[PWA-4] the icons are drawn as the mark is: ink on its strokes, paper elsewhere and in a maskable margin", () => {
  const { size, at } = pixels(drawIcon(192, 0));
  expect(size).toBe(192);
  expect(at(96, 5 * 6)).toEqual([...MARK.ink]);
  expect(at(96, 72)).toEqual([...MARK.paper]);
  expect(at(2, 2)).toEqual([...MARK.paper]);
  const masked = pixels(drawIcon(64, 0.2));
  for (const i of [0, 6, 58, 63]) expect(masked.at(i, 48)).toEqual([...MARK.paper]);
});

it("[PWA-4] the drawing for browsers is the same mark", () => {
  const svg = readFileSync(join(PUBLIC, "mark.svg"), "utf8");
  const { circle, lines, width } = MARK;
  expect(svg).toContain(`<circle cx="${circle.x}" cy="${circle.y}" r="${circle.r}"`);
  expect(svg).toContain(`stroke-width="${width}"`);
  // M3 24h26M6 24l7-9v9M26 24l-7-9v9
  const path = /d="([^"]+)"/.exec(svg)?.[1] ?? "";
  expect(strokesOf(path)).toEqual(lines.map((l) => [...l]));
});

/** Returns the straight strokes of a path of M, h, l and v. */
function strokesOf(path: string): number[][] {
  let [x, y] = [0, 0];
  const strokes: number[][] = [];
  for (const [, command, numbers] of path.matchAll(/([Mhlv])([^Mhlv]*)/g)) {
    const [a = 0, b = 0] = (numbers?.match(/-?\d+/g) ?? []).map(Number);
    if (command === "M") [x, y] = [a, b];
    else {
      const [dx, dy] = command === "h" ? [a, 0] : command === "v" ? [0, a] : [a, b];
      strokes.push([x, y, x + dx, y + dy]);
      [x, y] = [x + dx, y + dy];
    }
  }
  return strokes;
}

it("[PWA-4] the manifest names what is there and opens the panels by themselves", () => {
  const manifest = JSON.parse(readFileSync(join(PUBLIC, "manifest.webmanifest"), "utf8"));
  expect(manifest).toMatchObject({ start_url: "/", scope: "/", display: "standalone", name: "Chockside" });
  expect(manifest.icons.map((i: { src: string }) => i.src)).toEqual([
    "/mark.svg",
    "/icon-192.png",
    "/icon-512.png",
    "/icon-maskable-512.png",
  ]);
});

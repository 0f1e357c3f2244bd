import { readFileSync, writeFileSync } from "node:fs";
import { expect, it } from "vitest";
import { playWalk, WALKS } from "./pinnedWalk.ts";

const FILE = new URL("walks.json", import.meta.url);

// Pins what the core does now: for a change of behaviour that is meant. The file's difference shows which walks changed.
if (process.env.CHOCKSIDE_PIN === "on") {
  const made = Object.fromEntries(WALKS.map((walk) => [walk.name, playWalk(walk).digests]));
  writeFileSync(FILE, `${JSON.stringify(made, null, 2)}\n`);
}

const PINNED = JSON.parse(readFileSync(FILE, "utf8")) as Record<string, string>;

it.each(WALKS.map((walk) => [walk.name, walk] as const))(
  "[PRF-5] the same moves have the same outcome as when they were pinned: walk %s",
  (name, walk) => {
    const { moves, digests } = playWalk(walk);
    const pinned = PINNED[name]?.split(" ") ?? [];
    const differs = digests.split(" ").findIndex((digest, i) => digest !== pinned[i]);
    expect(differs < 0 ? null : `move ${differs + 1}, ${moves[differs]}`).toBeNull();
  },
);

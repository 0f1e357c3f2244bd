import { readFileSync } from "node:fs";

const { version } = JSON.parse(readFileSync(new URL("../package.json", import.meta.url), "utf8")) as {
  version: string;
};

/** The version of this program, as `package.json` has it. */
export const VERSION = version;

/** The program and its version, as exports and printed pages name it. */
export const PROGRAM = `Chockside ${version}`;

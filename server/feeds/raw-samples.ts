import { appendFile, mkdir } from "node:fs/promises";
import { join } from "node:path";
import type { Sample } from "../../shared/readings/judgeSample.ts";
import { sha256 } from "../sha256.ts";

/** Keeps the samples of each session in a file of their own; the record has the digest of each piece of it. */
export class RawSamples {
  readonly #folder: string;
  /** The folder is there; null until it is asked for, and after a failure. */
  #ready: Promise<unknown> | null = null;

  constructor(folder: string) {
    this.#folder = folder;
  }

  /** Adds the samples as lines of JSON. Resolves to their digest once they are written. */
  async keep(session: string, samples: readonly Sample[]): Promise<{ sha256: string; samples: number }> {
    const lines = samples.map(({ channel, engine, time, value, unit }) =>
      JSON.stringify({ channel, engine, time, value, unit }),
    );
    const text = `${lines.join("\n")}\n`;
    try {
      this.#ready ??= mkdir(this.#folder, { recursive: true, mode: 0o700 });
      await this.#ready;
      await appendFile(join(this.#folder, `${session}.ndjson`), text, { mode: 0o600 });
    } catch (error) {
      this.#ready = null;
      throw error;
    }
    return { sha256: sha256(text), samples: samples.length };
  }
}

import { appendFile, mkdir, readFile, rename, writeFile } from "node:fs/promises";
import { join } from "node:path";

/** A message that was given up, and why. */
export interface DeadLetter {
  at: string;
  target: string;
  id: string;
  kind: string;
  why: string;
}

/** Progress of each target, and the messages given up. */
export interface ProgressStore {
  /** Returns the position that a target reached; null before its first message. */
  position(target: string): Promise<string | null>;
  reached(target: string, position: string): Promise<void>;
  gaveUp(letter: DeadLetter): Promise<void>;
  /** Returns the messages that were given up, the oldest first. */
  deadLetters(): Promise<DeadLetter[]>;
  /** Forgets a message that was given up: its target has it now. */
  taken(letter: Pick<DeadLetter, "target" | "id">): Promise<void>;
}

/** How far each target came, and what was given up, in files beside the database. */
export class Progress implements ProgressStore {
  readonly #folder: string;

  constructor(folder: string) {
    this.#folder = folder;
  }

  async position(target: string): Promise<string | null> {
    try {
      return await readFile(join(this.#folder, `${target}.position`), "utf8");
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === "ENOENT") return null;
      throw error;
    }
  }

  async reached(target: string, position: string): Promise<void> {
    await this.#ready();
    const file = join(this.#folder, `${target}.position`);
    await writeFile(`${file}.new`, position, { mode: 0o600 });
    await rename(`${file}.new`, file);
  }

  async gaveUp(letter: DeadLetter): Promise<void> {
    await this.#ready();
    await appendFile(join(this.#folder, "dead-letters.ndjson"), `${JSON.stringify(letter)}\n`, {
      mode: 0o600,
    });
  }

  async deadLetters(): Promise<DeadLetter[]> {
    const text = await readFile(join(this.#folder, "dead-letters.ndjson"), "utf8").catch(
      (error: NodeJS.ErrnoException) => {
        if (error.code === "ENOENT") return "";
        throw error;
      },
    );
    const lines = text.split("\n").filter((line) => line !== "");
    return lines.map((line) => JSON.parse(line) as DeadLetter);
  }

  async taken({ target, id }: Pick<DeadLetter, "target" | "id">): Promise<void> {
    const left = (await this.deadLetters()).filter((l) => l.target !== target || l.id !== id);
    const file = join(this.#folder, "dead-letters.ndjson");
    const text = left.map((letter) => `${JSON.stringify(letter)}\n`).join("");
    await writeFile(`${file}.new`, text, { mode: 0o600 });
    await rename(`${file}.new`, file);
  }

  async #ready(): Promise<void> {
    await mkdir(this.#folder, { recursive: true, mode: 0o700 });
  }
}

import { type DeadLetter, type ProgressStore, SHOWN } from "../../webhooks/progress.ts";
import { type Place, PostgresLink } from "./link.ts";

const ANSWER_MS = 5_000;
const POSITION = "webhook position ";
const LETTERS = "webhook dead letters";

/** Progress of each target and the messages given up, in the database that several servers share. */
export class SharedProgress implements ProgressStore {
  readonly #link: PostgresLink;

  constructor(place: Place) {
    this.#link = new PostgresLink(place, "webhooks");
  }

  position(target: string): Promise<string | null> {
    return this.#value(POSITION + target);
  }

  reached(target: string, position: string): Promise<void> {
    return this.#put(POSITION + target, position);
  }

  async gaveUp(letter: DeadLetter): Promise<void> {
    await this.#putLetters([...(await this.#letters()), letter].slice(-SHOWN));
  }

  async deadLetters(): Promise<DeadLetter[]> {
    return (await this.#letters()).reverse();
  }

  async taken(letter: Pick<DeadLetter, "target" | "id">): Promise<void> {
    const left = (await this.#letters()).filter((l) => l.target !== letter.target || l.id !== letter.id);
    await this.#putLetters(left);
  }

  close(): Promise<void> {
    return this.#link.close();
  }

  async #letters(): Promise<DeadLetter[]> {
    return JSON.parse((await this.#value(LETTERS)) ?? "[]") as DeadLetter[];
  }

  #putLetters(letters: readonly DeadLetter[]): Promise<void> {
    return this.#put(LETTERS, JSON.stringify(letters));
  }

  async #value(key: string): Promise<string | null> {
    const text = `SELECT "value" FROM "Meta" WHERE "key" = $1`;
    const { rows } = await this.#link.query<{ value: string }>({ text, values: [key] }, ANSWER_MS);
    return rows[0]?.value ?? null;
  }

  async #put(key: string, value: string): Promise<void> {
    const text = `INSERT INTO "Meta" ("key", "value") VALUES ($1, $2)
      ON CONFLICT ("key") DO UPDATE SET "value" = EXCLUDED."value"`;
    await this.#link.query({ text, values: [key, value] }, ANSWER_MS);
  }
}

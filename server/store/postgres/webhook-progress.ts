import type { DeadLetter, ProgressStore } from "../../webhooks/progress.ts";
import { type Place, PostgresLink } from "./link.ts";

const ANSWER_MS = 5_000;
const POSITION = "webhook position ";
/** Each message that was given up has a row of its own: two servers may give one up at once. */
const LETTER = "webhook given up ";
const letterKey = ({ target, id }: Pick<DeadLetter, "target" | "id">) => `${LETTER}${target} ${id}`;

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
    await this.#put(letterKey(letter), JSON.stringify(letter));
  }

  async deadLetters(): Promise<DeadLetter[]> {
    const text = `SELECT "value" FROM "Meta" WHERE starts_with("key", $1)`;
    const { rows } = await this.#link.query<{ value: string }>({ text, values: [LETTER] }, ANSWER_MS);
    const letters = rows.map(({ value }) => JSON.parse(value) as DeadLetter);
    return letters.sort((a, b) => (a.at < b.at ? -1 : Number(a.at > b.at)));
  }

  async taken(letter: Pick<DeadLetter, "target" | "id">): Promise<void> {
    const text = `DELETE FROM "Meta" WHERE "key" = $1`;
    await this.#link.query({ text, values: [letterKey(letter)] }, ANSWER_MS);
  }

  close(): Promise<void> {
    return this.#link.close();
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

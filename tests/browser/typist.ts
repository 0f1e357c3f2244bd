import type { Locator } from "playwright-core";
import type { AircraftType } from "../../shared/types/schema.ts";
import { say } from "../../shared/words/en.ts";
import { fieldId } from "../../web/pages/types/form/context.ts";
import { typeNames } from "../../web/pages/types/names.ts";
import { parts } from "../../web/words/en/parts.ts";
import { types as words } from "../../web/words/en/types.ts";
import { key, type Seat } from "./seat.ts";

const names = typeNames(words, parts, say);
/** A text or a figure, and the id of the field that takes it. */
interface Leaf {
  readonly id: string;
  readonly value: string;
}

/**
 * Fills fields one after another as `fill` of Playwright does, in one call: each is visible and takes an entry, gets the
 * focus, and tells the page of its new value. Returns the ids of those that were changed.
 */
async function fillAll(leaves: readonly Leaf[]): Promise<string[]> {
  const changed: string[] = [];
  for (const { id, value } of leaves) {
    const field = document.getElementById(id) as HTMLInputElement | HTMLTextAreaElement | null;
    if (!field || field.value === value) continue;
    if (!field.checkVisibility() || field.disabled || field.readOnly)
      throw new Error(`takes no entry: ${id}`);
    field.focus();
    // The page's library listens to the setter of the element itself.
    Object.getOwnPropertyDescriptor(Object.getPrototypeOf(field), "value")?.set?.call(field, value);
    field.dispatchEvent(new InputEvent("input", { bubbles: true }));
    await new Promise((drawn) => setTimeout(drawn));
    changed.push(id);
  }
  return changed;
}

/** The server sets these. */
const HOUSE = ["id", "version", "author", "approvedBy"];
type Members = Readonly<Record<string, unknown>>;

/**
 * Enters a type on the page of a begun type as a person does: section after section, each figure into its field, and
 * the source once, then by the key that gives it to the rest.
 */
export class Typist {
  readonly #seat: Seat;
  /** Figures, choices and texts that were entered, and keys that were touched. */
  entries = 0;
  /** Sections that were opened. */
  sections = 0;
  #sourced = false;
  /** Texts and figures of this section that are not entered yet. */
  #leaves: Leaf[] = [];

  constructor(seat: Seat) {
    this.#seat = seat;
  }

  async enter(type: AircraftType): Promise<void> {
    const wanted = Object.entries(type).filter(([name]) => !HOUSE.includes(name));
    const keys = this.#seat.page.getByRole("navigation", { name: words.parts }).getByRole("button");
    await keys.first().waitFor();
    const titles = await keys.locator("span:first-child").allTextContents();
    const large = (name: string) => titles.includes(names.name(name));
    const general = wanted.filter(([name]) => !large(name));
    await this.#section(general);
    for (const title of titles.slice(1)) {
      const own = wanted.filter(([name]) => large(name) && names.name(name) === title);
      if (own.length === 0) continue;
      await this.#touch(
        keys.filter({ hasText: title }).and(key(new RegExp(`^${title}\\b`), this.#seat.page)),
      );
      await this.#section(own);
    }
  }

  async #section(wanted: readonly (readonly [string, unknown])[]): Promise<void> {
    this.sections += 1;
    for (const [name, value] of wanted) await this.#at(name, value);
    const { page } = this.#seat;
    await this.#fill();
    const all = page.locator(".same-source");
    if (await all.isVisible()) await this.#touch(all);
    const asBefore = page.locator(".tf-source .small-key");
    while ((await asBefore.count()) > 0) await this.#touch(asBefore.first());
  }

  async #at(path: string, value: unknown): Promise<void> {
    if (Array.isArray(value)) return this.#list(path, value);
    if (typeof value !== "object" || value === null) return this.#field(path, value);
    const members = value as Members;
    if ("basis" in members && "text" in members) return this.#source(path, members);
    const drawn = await this.#drawn(Object.keys(members).map((name) => `${path}.${name}`));
    for (const [name, inner] of Object.entries(members)) {
      const at = `${path}.${name}`;
      const add = this.#of(path)
        .locator("> .tf-keys")
        .getByRole("button", {
          ...{ name: words.add(names.name(name)), exact: true },
        });
      if (!drawn.includes(at) && (await add.count()) > 0) await this.#touch(add);
      await this.#at(at, inner);
    }
  }

  /** Returns those of the paths that the page draws. */
  #drawn(paths: readonly string[]): Promise<string[]> {
    return this.#seat.page.evaluate(
      (all) => all.filter(({ id }) => document.getElementById(id)).map(({ path }) => path),
      paths.map((path) => ({ path, id: fieldId(path) })),
    );
  }

  /** Writes the first source; later ones are given by a key. */
  async #source(path: string, { basis, text }: Members): Promise<void> {
    if (this.#sourced) return;
    this.#sourced = true;
    await this.#field(`${path}.basis`, basis);
    await this.#field(`${path}.text`, text);
  }

  async #list(path: string, wanted: readonly unknown[]): Promise<void> {
    const boxes = this.#seat.page.locator(`input[name^="${path}/"]`);
    if ((await boxes.count()) > 0) return this.#choices(boxes, wanted);
    const list = this.#of(path);
    const there = await list.locator("> .tf-list > li").count();
    for (let n = there; n < wanted.length; n += 1) await this.#touch(list.locator("> button").last());
    for (const [i, value] of wanted.entries()) await this.#at(`${path}.${i}`, value);
  }

  /** Enters the texts and figures that were gathered. */
  async #fill(): Promise<void> {
    const leaves = this.#leaves;
    this.#leaves = [];
    if (leaves.length > 0) this.entries += (await this.#seat.page.evaluate(fillAll, leaves)).length;
  }

  /** Ticks the choices that are wanted and no others. */
  async #choices(boxes: Locator, wanted: readonly unknown[]): Promise<void> {
    const wrong = await boxes.evaluateAll(
      (all, ids) =>
        all
          .map((box) => box as HTMLInputElement)
          .filter((box) => box.checked !== ids.includes(box.name.split("/")[1] ?? ""))
          .map((box) => box.name),
      wanted.map(String),
    );
    for (const name of wrong) await this.#touch(this.#seat.page.locator(`input[name="${name}"]`));
  }

  /** Enters a figure, a text or a choice. What the schema fixes has no field, and what is there stays. */
  async #field(path: string, value: unknown): Promise<void> {
    if (value === undefined) return;
    const field = this.#of(path);
    const kind = await this.#seat.page.evaluate(
      (id) => (document.getElementById(id) as HTMLInputElement | null)?.type ?? null,
      fieldId(path),
    );
    if (kind === null) return;
    if (kind === "checkbox") return field.setChecked(value === true);
    if (kind !== "select-one") this.#leaves.push({ id: fieldId(path), value: String(value) });
    else {
      // A choice may draw other fields: what was entered before it is entered first.
      await this.#fill();
      await field.selectOption({ label: names.value(value) });
      this.entries += 1;
    }
  }

  async #touch(what: Locator): Promise<void> {
    await this.#fill();
    await what.click();
    this.entries += 1;
  }

  #of(path: string): Locator {
    return this.#seat.page.locator(`[id="${fieldId(path)}"]`);
  }
}

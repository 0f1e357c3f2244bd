import { POSTS, type Post } from "../../protocol/posts.ts";

/** A person as the list shows them: their posts, and the last day of each currency by its kind. */
export interface ListedPerson {
  handle: string;
  name: string;
  mayHold: readonly Post[];
  active: boolean;
  dates: Readonly<Record<string, string>>;
}

const UNTIL = "until:";

/**
 * Returns the columns of the list of people, with one for each kind of currency. `pin`: the first PIN of a new person;
 * it is never written. `signIn` is changed on the page of people alone.
 */
export const peopleColumns = (kinds: readonly string[]): string[] => [
  ...["handle", "name", "posts", "signIn", "pin"],
  ...kinds.map((kind) => UNTIL + kind),
];

type Cells = Readonly<Record<string, string>>;

export function personCells({ handle, name, mayHold, active, dates }: ListedPerson): Record<string, string> {
  const days = Object.entries(dates).map(([kind, day]) => [UNTIL + kind, day]);
  const blocked = active ? "" : "blocked";
  const posts = POSTS.filter((post) => mayHold.includes(post)).join(" ");
  return { handle, name, posts, signIn: blocked, ...Object.fromEntries(days) };
}

/** Returns the posts that a cell names; what is no post is among them, to be refused. */
export const postsIn = (cell: string | undefined): string[] => (cell ?? "").split(/[\s,;]+/).filter(Boolean);

/** Returns the days that the cells name, by kind. */
export function datesIn(cells: Cells): Record<string, string> {
  return Object.fromEntries(
    Object.entries(cells)
      .filter(([column, day]) => column.startsWith(UNTIL) && day !== "")
      .map(([column, day]) => [column.slice(UNTIL.length), day]),
  );
}

import { POSTS, type Post } from "../protocol/posts.ts";
import { apartFromStarts, type Currency } from "./currency.ts";
import { DAY_MS, ENDING_DAYS, endOf } from "./due.ts";

/** One person's posts, end dates by kind, and last start and last finished rehearsal at each post. */
export interface Kept {
  mayHold: readonly Post[];
  /** Days by the kind's id. */
  dates: Readonly<Record<string, string>>;
  /** Server milliseconds; absent without a start. */
  starts: Readonly<Partial<Record<Post, number>>>;
  /** The same of rehearsals. */
  rehearsals: Readonly<Partial<Record<Post, number>>>;
}

/** A currency of a person at a post that is over, or ends within 30 days. */
export interface Lapse {
  post: Post;
  kind: string;
  name: string;
  /** Server milliseconds; null when there is neither a date nor a start. */
  until: number | null;
  is: "over" | "ending";
  /** True when the house lets nobody with this lapse take the post. */
  bars: boolean;
}

/** Returns until when a person is current at a post; null when there is neither a date nor anything that counts. */
export function currentUntil(kind: Currency, post: Post, { dates, starts, rehearsals }: Kept): number | null {
  const day = dates[kind.id];
  const start = kind.recencyDays === null ? undefined : starts[post];
  const counted = kind.rehearsalDays !== undefined && apartFromStarts(kind);
  const rehearsed = counted ? rehearsals[post] : undefined;
  const ends = [
    ...(day === undefined ? [] : [endOf(day)]),
    ...(start === undefined ? [] : [start + (kind.recencyDays ?? 0) * DAY_MS]),
    ...(rehearsed === undefined ? [] : [rehearsed + (kind.rehearsalDays ?? 0) * DAY_MS]),
  ];
  return ends.length === 0 ? null : Math.max(...ends);
}

/** Returns until when no currency bars a person from a post; null where the house asks none of them there. */
export function barredFrom(kinds: readonly Currency[], post: Post, person: Kept): number | null {
  const ends = kinds
    .filter((kind) => !kind.retired && kind.needs[post] === "bars")
    // A date that nobody entered counts as over.
    .map((kind) => currentUntil(kind, post, person) ?? 0);
  return ends.length === 0 ? null : Math.min(...ends);
}

/** A currency that a person needs at a post. */
export interface NeededCurrency {
  post: Post;
  kind: Currency;
  /** Server milliseconds; null when there is neither a date nor a start. */
  until: number | null;
  /** True when the house lets nobody take the post once it is over. */
  bars: boolean;
}

/** Returns every currency that the house needs at the posts a person may hold. */
export function neededOf(kinds: readonly Currency[], person: Kept): NeededCurrency[] {
  return POSTS.filter((post) => person.mayHold.includes(post)).flatMap((post) =>
    kinds.flatMap((kind): NeededCurrency[] => {
      const rule = kind.needs[post];
      if (rule === null || kind.retired) return [];
      return [{ post, kind, until: currentUntil(kind, post, person), bars: rule === "bars" }];
    }),
  );
}

/** Returns every lapse of a person now, at the posts they may hold. What nobody entered counts as over. */
export function lapsesOf(kinds: readonly Currency[], person: Kept, now: number): Lapse[] {
  return neededOf(kinds, person).flatMap(({ post, kind, until, bars }): Lapse[] => {
    const over = until === null || until <= now;
    if (!over && until - now > ENDING_DAYS * DAY_MS) return [];
    const is = over ? "over" : "ending";
    return [{ post, kind: kind.id, name: kind.name, until, is, bars: over && bars }];
  });
}

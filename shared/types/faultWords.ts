import type { z } from "zod";
import type { TypeFault } from "./fault.ts";

type Issue = z.core.$ZodIssue;

/** Returns the faults that the schema found, each with its path and its words. */
export function faultsOf(issues: readonly Issue[], under: readonly PropertyKey[] = []): TypeFault[] {
  return issues.flatMap((issue) => {
    const path = [...under, ...issue.path];
    if (issue.code === "invalid_union" && issue.errors.length > 0) {
      return faultsOf(nearest(issue.errors), path);
    }
    return [{ path: path.map(String).join("."), message: wordsOf(issue) }];
  });
}

/** Returns the issues of the form with the least faults: most likely the author meant that form. */
function nearest(forms: readonly (readonly Issue[])[]): readonly Issue[] {
  return forms.reduce((best, form) => (weight(form) < weight(best) ? form : best));
}

/** Wrong or missing members show that another form was meant, so they weigh more. */
function weight(issues: readonly Issue[]): number {
  return issues.reduce((sum, i) => sum + (i.path.length === 0 || i.code === "unrecognized_keys" ? 4 : 1), 0);
}

const NEEDED: Readonly<Record<string, string>> = {
  number: "a number is needed",
  int: "a whole number is needed",
  string: "text is needed",
  boolean: "yes or no is needed",
  array: "a list is needed",
  object: "is missing",
};

function wordsOf(issue: Issue): string {
  switch (issue.code) {
    case "invalid_type":
      return NEEDED[issue.expected] ?? `${issue.expected} is needed`;
    case "too_small":
      return ownWords(issue) ?? bound(issue.origin, "least", issue.minimum, issue.inclusive ?? true);
    case "too_big":
      return ownWords(issue) ?? bound(issue.origin, "most", issue.maximum, issue.inclusive ?? true);
    case "invalid_value":
      return issue.values.length > 8
        ? "must be one of those offered"
        : `must be ${issue.values.map(String).join(" or ")}`;
    case "unrecognized_keys":
      return `not known here: ${issue.keys.join(", ")}`;
    case "invalid_union":
      return "fits none of the forms it may have";
    default:
      return issue.message;
  }
}

/** Returns the schema's own message, if it has one. */
function ownWords(issue: Issue): string | null {
  return /^(Too (small|big)|Invalid)/.test(issue.message) ? null : issue.message;
}

const ENDS = { least: { in: "at least", out: "more than" }, most: { in: "at most", out: "less than" } };

function bound(of: string, end: "least" | "most", value: number | bigint, inclusive: boolean): string {
  const words = `${inclusive ? ENDS[end].in : ENDS[end].out} ${value}`;
  if (of === "array") return `needs ${words} ${Number(value) === 1 ? "item" : "items"}`;
  return of === "string" ? `must be ${words} characters` : `must be ${words}`;
}

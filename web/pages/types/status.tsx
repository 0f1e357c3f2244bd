import type { TypeRow } from "../../net/types.ts";
import { dayWords } from "./words.ts";

const WORDS = { draft: "Draft", approved: "Approved", superseded: "Superseded" };

/** A version's standing: a shape and a word, colour besides. */
export function Status({ status }: { status: TypeRow["status"] }) {
  return (
    <span className="type-status" data-is={status}>
      <svg viewBox="0 0 20 20" aria-hidden="true">
        {status === "draft" && <path d="M10 2 L18 17 H2 Z" />}
        {status === "approved" && <circle cx="10" cy="10" r="8" />}
        {status === "superseded" && <path d="M3 10 H17" />}
      </svg>
      {WORDS[status]}
    </span>
  );
}

export function bySentence({ status, author, approvedBy, approvedAt, changedAt }: TypeRow): string {
  if (status === "draft")
    return `By ${author}, last changed ${dayWords(changedAt)}. Not approved: cannot be planned.`;
  const on = approvedAt === null ? "" : ` on ${dayWords(approvedAt)}`;
  return `By ${author}. Approved by ${approvedBy}${on}.`;
}

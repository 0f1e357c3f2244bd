import { dayWords } from "../../../shared/words/dates.ts";
import type { Language } from "../../../shared/words/language.ts";
import type { TypeRow } from "../../net/types.ts";
import type { TypeWords } from "../../words/en/types.ts";
import { useTypeWords } from "../../words/types.ts";

/** A version's status as a shape and a word; colour only adds to them. */
export function Status({ status }: { status: TypeRow["status"] }) {
  const words = useTypeWords();
  return (
    <span className="type-status" data-is={status}>
      <svg viewBox="0 0 20 20" aria-hidden="true">
        {status === "draft" && <path d="M10 2 L18 17 H2 Z" />}
        {status === "approved" && <circle cx="10" cy="10" r="8" />}
        {status === "superseded" && <path d="M3 10 H17" />}
      </svg>
      {words.status[status]}
    </span>
  );
}

export function bySentence(
  { status, author, approvedBy, approvedAt, changedAt }: TypeRow,
  words: TypeWords,
  language: Language,
): string {
  if (status === "draft") return words.byDraft(author, dayWords(changedAt, language));
  return words.byApproved(
    author,
    approvedBy ?? "",
    approvedAt === null ? null : dayWords(approvedAt, language),
  );
}

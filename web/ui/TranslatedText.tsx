import type { Piece } from "../../shared/words/piece.ts";

/** A text in the reader's language. Pieces left in English are marked as English. */
export function TranslatedText({ pieces }: { pieces: readonly Piece[] }) {
  return pieces.map((p, at) =>
    p.asWritten ? (
      // biome-ignore lint/suspicious/noArrayIndexKey: pieces of one text, in their fixed order
      <span key={at} lang="en">
        {p.words}
      </span>
    ) : (
      p.words
    ),
  );
}

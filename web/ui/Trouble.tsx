import type { Piece } from "../../shared/words/piece.ts";
import { TranslatedText } from "./TranslatedText.tsx";

/** The reason why something failed. The server's words are in `pieces`, which mark text left in English. */
export function Trouble({ of }: { of: (Error & { pieces?: readonly Piece[] }) | null }) {
  if (of === null) return null;
  return (
    <p className="trouble" role="alert">
      {of.pieces ? <TranslatedText pieces={of.pieces} /> : of.message}
    </p>
  );
}

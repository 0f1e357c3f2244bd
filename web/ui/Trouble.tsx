import type { Piece } from "../../shared/words/phraseBook.ts";
import { Told } from "./Told.tsx";

/** The reason why something failed. The server's words are in `told`, whose pieces mark text left in English. */
export function Trouble({ of }: { of: (Error & { told?: readonly Piece[] }) | null }) {
  if (of === null) return null;
  return (
    <p className="trouble" role="alert">
      {of.told ? <Told said={of.told} /> : of.message}
    </p>
  );
}

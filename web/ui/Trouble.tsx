import type { Piece } from "../../shared/words/phraseBook.ts";
import { Told } from "./Told.tsx";

/** Why something failed. What the server said of it is `told`, so that what is left in English is marked as such. */
export function Trouble({ of }: { of: (Error & { told?: readonly Piece[] }) | null }) {
  if (of === null) return null;
  return (
    <p className="trouble" role="alert">
      {of.told ? <Told said={of.told} /> : of.message}
    </p>
  );
}

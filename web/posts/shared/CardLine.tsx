import { Suspense, useState } from "react";
import { isGood } from "../../../shared/card/places.ts";
import { wholeCard } from "../../../shared/card/whole.ts";
import { isOver } from "../../../shared/session/state.ts";
import { later } from "../../ui/later.tsx";
import { useLaterWords } from "../../words/later.ts";
import { cardPost } from "./cardPost.ts";
import type { Panel } from "./model.ts";
import "../../styles/card.css";

const CardSheet = later(() => import("./CardSheet.tsx").then((m) => m.CardSheet));

/** Says how far the card is answered, and opens the whole of it. Nothing for a person who answers none of its items. */
export function CardLine({ panel }: { panel: Panel }) {
  const { card: words } = useLaterWords();
  const [open, setOpen] = useState(false);
  const { state } = panel;
  const post = cardPost(panel);
  if (post === null || isOver(state)) return null;
  const own = wholeCard(state, panel.now).filter((p) => p.item.post === post);
  if (own.length === 0) return null;
  const good = own.filter((p) => isGood(state, p)).length;
  return (
    <section className="card-line" aria-label={words.title}>
      <h3>{words.line(good, own.length)}</h3>
      <button type="button" className="answer" data-tone="plain" onClick={() => setOpen(true)}>
        {words.open}
      </button>
      {open && (
        <Suspense fallback={null}>
          <CardSheet panel={panel} post={post} onClose={() => setOpen(false)} />
        </Suspense>
      )}
    </section>
  );
}

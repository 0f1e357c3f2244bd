import type { Panel } from "../shared/model.ts";
import { PanelFrame } from "../shared/PanelFrame.tsx";

interface Props {
  panel: Panel;
  stale: string | null;
  onPosts(): void;
}

/**
 * The panel of a person without a post, who sees everything, may send stops, and may take a post they are qualified
 * for.
 */
export function ObserverPanel({ panel, stale, onPosts }: Props) {
  const offered = Object.values(panel.state.offers).some((o) => o?.to === panel.me.id);
  return (
    <PanelFrame panel={panel} stale={stale} kind="observer">
      {panel.me.mayHold.length > 0 && (
        <button type="button" className="answer" data-tone="yes" onClick={onPosts}>
          {offered ? panel.words.text.posts.offered : panel.words.text.posts.take}
        </button>
      )}
    </PanelFrame>
  );
}

import type { Panel } from "../shared/model.ts";
import { PanelFrame } from "../shared/PanelFrame.tsx";
import { TakePost } from "./TakePost.tsx";

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
  return (
    <PanelFrame panel={panel} stale={stale} kind="observer">
      <TakePost panel={panel} onPosts={onPosts} />
    </PanelFrame>
  );
}

import { Suspense } from "react";
import { later } from "../../ui/later.tsx";
import type { Panel } from "../shared/model.ts";
import { PanelFrame } from "../shared/PanelFrame.tsx";

const CardLine = later(() => import("../shared/CardLine.tsx").then((m) => m.CardLine));
const TakePost = later(() => import("./TakePost.tsx").then((m) => m.TakePost));

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
      <Suspense fallback={null}>
        <TakePost panel={panel} onPosts={onPosts} />
        <CardLine panel={panel} />
      </Suspense>
    </PanelFrame>
  );
}

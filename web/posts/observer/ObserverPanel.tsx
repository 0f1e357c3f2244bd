import { Suspense } from "react";
import { later } from "../../ui/later.tsx";
import type { Panel } from "../shared/model.ts";
import { PanelFrame } from "../shared/PanelFrame.tsx";
import { TakePost } from "./TakePost.tsx";

const CardLine = later(() => import("../shared/CardLine.tsx").then((m) => m.CardLine));

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
      <Suspense fallback={null}>
        <CardLine panel={panel} />
      </Suspense>
    </PanelFrame>
  );
}

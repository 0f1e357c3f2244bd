import type { FirePlace } from "../../../shared/protocol/signals.ts";
import { FireKeys } from "../../ui/FireKeys.tsx";
import { Sheet } from "../../ui/Sheet.tsx";
import { fireView } from "./fireView.ts";
import type { Panel } from "./model.ts";
import type { OpenFire } from "./openFire.ts";

interface Props {
  panel: Panel;
  numbers: readonly number[];
  open: OpenFire;
  onSaid(more: Partial<Pick<OpenFire, "engine" | "place">>): void;
  onClose(): void;
}

/** The number and place of a fire that was sent, and the key that takes a slip back. Whoever leaves it has been heard. */
export function FireSheet({ panel, numbers, open, onSaid, onClose }: Props) {
  const { title, prompt, said, locate, disregard } = fireView(panel, open);
  const tell = (more: { engine: number } | { place: FirePlace }) => {
    panel.act(locate(more));
    onSaid(more);
  };
  return (
    <Sheet title={title} atOnce onClose={onClose}>
      <section className="entry" aria-label={prompt}>
        <p>{prompt}</p>
        <FireKeys
          numbers={numbers}
          said={said}
          onEngine={(engine) => tell({ engine })}
          onPlace={(place) => tell({ place })}
        />
        {disregard && (
          <button
            type="button"
            className="answer"
            data-tone="plain"
            disabled={!panel.fresh}
            onClick={() => {
              panel.act(disregard);
              onClose();
            }}
          >
            {panel.words.text.standing.slip}
          </button>
        )}
      </section>
    </Sheet>
  );
}

import { AuthorsWords } from "../../ui/AuthorsWords.tsx";
import { Sheet } from "../../ui/Sheet.tsx";
import type { Panel } from "./model.ts";

interface Props {
  panel: Panel;
  onOpened(): void;
  onClose(): void;
}

/**
 * Drills that concern no single engine, such as slipping brakes or a lost post. An engine's own drills are on its
 * sheet.
 */
export function DrillsSheet({ panel, onOpened, onClose }: Props) {
  return (
    <Sheet title={panel.words.text.options.drill} onClose={onClose}>
      <div className="option-keys">
        {panel.state.type.drills.map(({ id, title }) => (
          <button
            key={id}
            type="button"
            className="answer"
            data-tone="plain"
            disabled={!panel.fresh}
            onClick={() => {
              panel.act({ type: "startDrill", drill: id });
              onOpened();
            }}
          >
            <AuthorsWords text={title} />
          </button>
        ))}
      </div>
    </Sheet>
  );
}

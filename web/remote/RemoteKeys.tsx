import { useEffect, useLayoutEffect, useRef } from "react";
import type { Ask } from "../../shared/asks/ask.ts";
import type { AnswerKey, AskView } from "../ui/askView.ts";
import { useLaterWords } from "../words/later.ts";
import { keyDoes } from "./keyDoes.ts";
import { pressOf } from "./press.ts";
import { useTaught } from "./taught.ts";
import { thumbAnswer } from "./thumb.ts";

interface Props {
  /** The ask in front, and as it is shown; null when nothing can be answered. */
  asked: { ask: Ask; view: AskView } | null;
  fresh: boolean;
  /** True while an entry is open or an answer is on its way. */
  busy: boolean;
  onHold(): void;
  onAnswer(answer: AnswerKey): void;
}

/**
 * Lets the taught keys of a remote or keyboard hold and answer while this panel is in front, and says what the key for
 * answers would give. A taught key does nothing else on the panel.
 */
export function RemoteKeys(props: Props) {
  const { asked, fresh, busy } = props;
  const { remote: words } = useLaterWords();
  const taught = useTaught();
  const index = asked && thumbAnswer(asked.ask);
  const answer = (index !== null && asked?.view.answers[index]) || null;
  const since = useRef(0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: for each ask
  useLayoutEffect(() => {
    since.current = performance.now();
  }, [asked?.ask.key]);
  const latest = useRef({ ...props, taught, answer });
  latest.current = { ...props, taught, answer };
  useEffect(() => {
    const does = (event: KeyboardEvent) => {
      const { taught, answer, fresh, busy } = latest.current;
      const act = keyDoes(taught, pressOf(event), {
        answerable: answer !== null && (fresh || answer.offline),
        busy: busy || document.querySelector(".sheet") !== null,
        forMs: event.timeStamp - since.current,
      });
      // Otherwise the key would also press what has the focus.
      if (act !== null) {
        event.preventDefault();
        event.stopPropagation();
      }
      return act;
    };
    const down = (event: KeyboardEvent) => {
      const act = does(event);
      const { answer, onHold, onAnswer } = latest.current;
      if (act === "hold") onHold();
      if (act === "answer" && answer !== null) onAnswer(answer);
    };
    document.addEventListener("keydown", down, true);
    document.addEventListener("keyup", does, true);
    return () => {
      document.removeEventListener("keydown", down, true);
      document.removeEventListener("keyup", does, true);
    };
  }, []);
  if (taught.answer === null || asked === null || busy || (!fresh && !answer?.offline)) return null;
  return <p className="ask-remote">{answer === null ? words.touch : words.gives(answer.word)}</p>;
}

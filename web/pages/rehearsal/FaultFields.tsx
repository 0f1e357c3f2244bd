import { FAULTS } from "../../../shared/protocol/rehearsalFaults.ts";
import { FAULT } from "../../../shared/rehearsal/faults.ts";
import { MOMENTS } from "../../../shared/rehearsal/script.ts";
import { rehearsalWords } from "../../../shared/words/rehearsed.ts";
import { useScriptWords } from "../../words/scripts.ts";
import { useWords } from "../../words/words.ts";
import { type FaultText, postsOf } from "./scriptEntry.ts";

interface Props {
  no: number;
  text: FaultText;
  onChange(to: FaultText): void;
  onTakeOut(): void;
}

/** The fields of one fault: what, of which engine or post, how long after what, and how likely. */
export function FaultFields({ no, text, onChange, onTakeOut }: Props) {
  const words = useScriptWords();
  const { say } = useWords();
  const names = rehearsalWords(say.language).faults;
  const posts = postsOf(text.fault);
  const figure = (what: "which" | "seconds" | "chance") => (
    <label className="field">
      <span>{words[what]}</span>
      <input
        name={`${what} ${no}`}
        inputMode="decimal"
        value={text[what]}
        maxLength={6}
        autoComplete="off"
        onChange={(e) => onChange({ ...text, [what]: e.target.value })}
      />
    </label>
  );
  const choice = <K extends "fault" | "after" | "post">(
    what: K,
    label: string,
    options: readonly { is: FaultText[K]; words: string }[],
  ) => (
    <label className="field">
      <span>{label}</span>
      <select
        name={`${what} ${no}`}
        value={text[what]}
        onChange={(e) => onChange({ ...text, [what]: e.target.value as FaultText[K] })}
      >
        {options.map((option) => (
          <option key={option.is} value={option.is}>
            {option.words}
          </option>
        ))}
      </select>
    </label>
  );
  return (
    <fieldset className="script-fault">
      <legend>{words.faultNo(no)}</legend>
      <div className="register-fields">
        {choice(
          "fault",
          words.fault,
          FAULTS.map((is) => ({ is, words: names[is] })),
        )}
        {choice(
          "after",
          words.after,
          MOMENTS.map((is) => ({ is, words: words.moments[is] })),
        )}
        {figure("seconds")}
        {FAULT[text.fault].about !== "aircraft" && figure("which")}
        {posts.length > 0 &&
          choice("post", words.post, [
            { is: "", words: words.usualPost },
            ...posts.map((is) => ({ is, words: say.post(is) })),
          ])}
        {figure("chance")}
      </div>
      <button type="button" className="small-key" onClick={onTakeOut}>
        {words.takeOut(no)}
      </button>
    </fieldset>
  );
}

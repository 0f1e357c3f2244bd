import { useState } from "react";
import type { RehearsalScript } from "../../../shared/rehearsal/script.ts";
import { LANGUAGES } from "../../../shared/words/language.ts";
import { rehearsalWords } from "../../../shared/words/rehearsed.ts";
import { FormKeys } from "../../ui/FormKeys.tsx";
import { useScriptWords } from "../../words/scripts.ts";
import { useWords } from "../../words/words.ts";
import { FaultFields } from "./FaultFields.tsx";
import { NEW_FAULT, type ScriptText, type ScriptTrouble, scriptOf } from "./scriptEntry.ts";

/** Most faults of one script. */
const MOST = 12;

interface Props {
  begin: ScriptText;
  /** Word of the key that sends it. */
  send: string;
  onSave(script: RehearsalScript): void;
  onLeave(): void;
}

/** The editor of a script: its titles, the air, the partners' pace, and what may go wrong when. */
export function ScriptEditor({ begin, send, onSave, onLeave }: Props) {
  const words = useScriptWords();
  const { language } = useWords().say;
  const [text, setText] = useState(begin);
  const read = scriptOf(text);
  const said = ({ is, no }: ScriptTrouble) => {
    const what = "field" in is ? words.fits[is.field] : rehearsalWords(language).scriptFaults[is.wrong];
    return no === null ? what : words.ofFault(no, what);
  };
  const both = (what: "title" | "about", most: number) =>
    LANGUAGES.map((of) => (
      <label key={`${what} ${of}`} className="field">
        <span>{words[what][of]}</span>
        <input
          name={`${what} ${of}`}
          lang={of}
          value={text[what][of]}
          maxLength={most}
          autoComplete="off"
          onChange={(e) => setText({ ...text, [what]: { ...text[what], [of]: e.target.value } })}
        />
      </label>
    ));
  const figure = (what: "airC" | "slower") => (
    <label className="field">
      <span>{words[what]}</span>
      <input
        name={what}
        inputMode="decimal"
        value={text[what]}
        maxLength={6}
        autoComplete="off"
        onChange={(e) => setText({ ...text, [what]: e.target.value })}
      />
    </label>
  );
  const faults = (change: (before: ScriptText["faults"]) => ScriptText["faults"]) =>
    setText({ ...text, faults: change(text.faults) });
  return (
    <form
      className="register-form"
      aria-label={words.editor}
      onSubmit={(e) => {
        e.preventDefault();
        if ("script" in read) onSave(read.script);
      }}
    >
      <div className="register-fields">
        {both("title", 60)}
        {both("about", 240)}
        {figure("airC")}
        {figure("slower")}
      </div>
      <h3>{words.faults}</h3>
      {text.faults.length === 0 && <p>{words.noFaults}</p>}
      <ol className="script-faults">
        {text.faults.map((fault, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a fault is its place in the script
          <li key={i}>
            <FaultFields
              no={i + 1}
              text={fault}
              onChange={(to) => faults((all) => all.map((one, at) => (at === i ? to : one)))}
              onTakeOut={() => faults((all) => all.filter((_, at) => at !== i))}
            />
          </li>
        ))}
      </ol>
      <button
        type="button"
        className="small-key"
        disabled={text.faults.length >= MOST}
        onClick={() => faults((all) => [...all, NEW_FAULT])}
      >
        {words.addFault}
      </button>
      <div role="status" aria-label={words.doesNotFit}>
        {"troubles" in read && (
          <ul className="script-troubles">
            {read.troubles.map((trouble) => (
              <li key={JSON.stringify(trouble)}>{said(trouble)}</li>
            ))}
          </ul>
        )}
      </div>
      <FormKeys send={send} leave={words.leave} ready={"script" in read} onLeave={onLeave} />
    </form>
  );
}

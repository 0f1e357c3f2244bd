import { useState } from "react";
import { readTraceText } from "../../../shared/models/electrical/traceText.ts";
import type { Action } from "../../../shared/protocol/commands.ts";
import { TRACE_SAMPLES } from "../../../shared/protocol/trace.ts";
import type { Piece } from "../../../shared/words/piece.ts";
import { workedBook } from "../../../shared/words/worked.ts";
import { TranslatedText } from "../../ui/TranslatedText.tsx";
import { useLaterWords } from "../../words/later.ts";
import { useWords } from "../../words/words.ts";

type Give = Extract<Action, { type: "giveVoltTrace" }>;

/** Entry for samples of volts from a meter, parsed as they are pasted. */
export function TraceEntry({ disabled, onGive }: { disabled: boolean; onGive(action: Give): void }) {
  const { say } = useWords();
  const { trace: words } = useLaterWords();
  const [pasted, setPasted] = useState("");
  const [cranked, setCranked] = useState(false);
  const [from, setFrom] = useState("");
  const [to, setTo] = useState("");
  const [ago, setAgo] = useState("");
  const read = readTraceText(pasted, TRACE_SAMPLES);
  const last = read.ok ? (read.value.at(-1)?.ms ?? 0) : 0;
  const cranking = cranked ? [{ from: figure(from) * 1000, to: figure(to) * 1000 }] : [];
  const ended = figure(ago);
  const own = (words: string): readonly Piece[] => [{ words, asWritten: false }];
  const fault = !read.ok
    ? workedBook(say.language)(read.why)
    : cranking.some((c) => !(c.from >= 0 && c.from < c.to && c.to <= last))
      ? own(words.cranking)
      : ended >= 0 && ended <= 3600
        ? null
        : own(words.ago);
  const field = (label: string, value: string, set: (next: string) => void) => (
    <label className="field">
      <span>{label}</span>
      <input
        name="figure"
        inputMode="decimal"
        value={value}
        maxLength={8}
        onChange={(e) => set(e.target.value)}
      />
    </label>
  );
  return (
    <div className="trace-entry">
      <p>{words.lead}</p>
      <label className="field">
        <span>{words.samples}</span>
        <textarea
          name="trace"
          rows={6}
          value={pasted}
          spellCheck={false}
          onChange={(e) => setPasted(e.target.value)}
        />
      </label>
      <label className="field field-tick">
        <input
          name="cranked"
          type="checkbox"
          checked={cranked}
          onChange={(e) => setCranked(e.target.checked)}
        />
        <span>{words.cranked}</span>
      </label>
      {cranked && field(words.from, from, setFrom)}
      {cranked && field(words.to, to, setTo)}
      {field(words.ended, ago, setAgo)}
      {pasted !== "" && fault && (
        <p className="trouble" role="alert">
          <TranslatedText pieces={fault} />
        </p>
      )}
      <button
        type="button"
        className="answer"
        data-tone="yes"
        disabled={disabled || fault !== null}
        onClick={() =>
          read.ok &&
          onGive({
            type: "giveVoltTrace",
            samples: read.value.map(({ ms, volts }) => [ms, volts]),
            cranking,
            endedAgoMs: Math.round(ended * 1000),
          })
        }
      >
        {read.ok ? words.give(read.value.length, (last / 1000).toFixed(2)) : words.notYet}
      </button>
    </div>
  );
}

/** Returns the entered figure, or NaN when the text is not a number. */
function figure(text: string): number {
  return text.trim() === "" ? Number.NaN : Number(text.trim().replace(",", "."));
}

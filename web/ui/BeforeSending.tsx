import { useWords } from "../words/words.ts";

interface Props {
  /** The figure and its band; null for a figure inside it. */
  outside: string | null;
  follows: readonly string[];
  send: string;
  disabled: boolean;
  onSend(): void;
  onChange(): void;
}

/**
 * Asks whether figures are to be sent that would set something off. The key that changes them stands where the key that
 * records was, so that a double touch sends nothing.
 */
export function BeforeSending({ outside, follows, send, disabled, onSend, onChange }: Props) {
  const { entry } = useWords().text;
  return (
    <div className="entry-before-sending" role="alert">
      {outside && <h3>{outside}</h3>}
      {follows.length > 0 && (
        <>
          <p>{entry.ifSent}</p>
          <ul className="ask-lacking">
            {follows.map((f) => (
              <li key={f}>{f}</li>
            ))}
          </ul>
        </>
      )}
      <div className="answers">
        <button type="button" className="answer" data-tone="plain" onClick={onChange}>
          {entry.change}
        </button>
        <button type="button" className="answer" data-tone="no" disabled={disabled} onClick={onSend}>
          {send}
        </button>
      </div>
    </div>
  );
}

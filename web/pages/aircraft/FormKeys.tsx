import { useRegisterWords } from "../../words/register.ts";

interface Props {
  /** Word of the key that sends the form. */
  send: string;
  ready: boolean;
  onLeave(): void;
}

/** The keys at the end of a form that changes an aircraft: send it, or leave everything as it is. */
export function FormKeys({ send, ready, onLeave }: Props) {
  const words = useRegisterWords();
  return (
    <div className="head-keys register-keys">
      <button type="submit" className="answer" data-tone="yes" disabled={!ready}>
        {send}
      </button>
      <button type="button" className="answer" data-tone="plain" onClick={onLeave}>
        {words.leave}
      </button>
    </div>
  );
}

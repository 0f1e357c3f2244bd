interface Props {
  /** Word of the key that sends the form. */
  send: string;
  /** Word of the key that leaves it. */
  leave: string;
  ready: boolean;
  onLeave(): void;
}

/** The keys at the end of a form: send it, or leave everything as it is. */
export function FormKeys({ send, leave, ready, onLeave }: Props) {
  return (
    <div className="head-keys register-keys">
      <button type="submit" className="answer" data-tone="yes" disabled={!ready}>
        {send}
      </button>
      <button type="button" className="answer" data-tone="plain" onClick={onLeave}>
        {leave}
      </button>
    </div>
  );
}

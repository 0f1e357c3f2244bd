import { useState } from "react";

/** This person is open in another window of this browser. Only one of them may send, so here nothing is shown. */
export function ElsewherePage({ name, onTake }: { name: string; onTake: (() => void) | undefined }) {
  const [asked, setAsked] = useState(false);
  return (
    <main className="page waiting elsewhere">
      <h1>{name} is open in another tab</h1>
      <p>
        This person is open in another tab of this device, and only one may send. Go on there, or take over
        here: what waits to be sent comes along.
      </p>
      <button
        type="button"
        className="answer"
        data-tone="yes"
        disabled={asked}
        onClick={() => {
          setAsked(true);
          onTake?.();
        }}
      >
        {asked ? "Taking over…" : "Take over here"}
      </button>
    </main>
  );
}

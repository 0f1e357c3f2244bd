import { Component, type ReactNode } from "react";
import { useWords } from "../words/words.ts";

/** Catches errors of fetching or drawing a page, and shows what to do meanwhile. */
export class Fault extends Component<{ children: ReactNode }, { failed: boolean }> {
  override state = { failed: false };

  static getDerivedStateFromError() {
    return { failed: true };
  }

  override render() {
    if (!this.state.failed) return this.props.children;
    return <Failed />;
  }
}

function Failed() {
  const { fault, ramp } = useWords().text;
  return (
    <main className="page waiting" role="alert">
      <h1>{fault.title}</h1>
      <p>{fault.what}</p>
      <button type="button" className="answer" data-tone="yes" onClick={() => location.reload()}>
        {fault.again}
      </button>
      <a className="answer" href="/">
        {ramp.title}
      </a>
    </main>
  );
}

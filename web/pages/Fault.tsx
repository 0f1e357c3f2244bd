import { Component, type ReactNode } from "react";

/** When a page cannot be fetched or drawn: says so, and what to do meanwhile. */
export class Fault extends Component<{ children: ReactNode }, { failed: boolean }> {
  override state = { failed: false };

  static getDerivedStateFromError() {
    return { failed: true };
  }

  override render() {
    if (!this.state.failed) return this.props.children;
    return (
      <main className="page waiting" role="alert">
        <h1>This page cannot be shown.</h1>
        <p>Hold, and use hand signals and local procedures. What was sent before is kept and recorded.</p>
        <button type="button" className="answer" data-tone="yes" onClick={() => location.reload()}>
          Load it again
        </button>
        <a className="answer" href="/">
          The ramp
        </a>
      </main>
    );
  }
}

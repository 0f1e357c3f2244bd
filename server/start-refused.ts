/** The server refuses to start. The message tells the operator why, and what to do. */
export class StartRefused extends Error {
  override readonly name = "StartRefused";
}

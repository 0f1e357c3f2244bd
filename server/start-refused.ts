/** The server will not start like this; the message says why and what to do, in words for whoever runs it. */
export class StartRefused extends Error {
  override readonly name = "StartRefused";
}

/** An exported record as it was written, taken apart into what NDJSON has a line each of. */
export interface Written {
  /** The manifest, the events, and the signature where there is one. */
  lines: string[];
  /** The file ends as it must: nothing was cut off behind it or put there. */
  ended: boolean;
  /** The bytes the signature stands for. @param events those of the lines that are events */
  before(events: readonly string[]): string;
}

const OPENS = '{"manifest":';
const EVENTS = ',"events":[';
const ENDS = '\n],"end":';

/** One document in place of lines: the same manifest, the same events a line each, the same signature at its end. */
export function writtenOf(text: string): Written {
  return text.startsWith(OPENS) ? asDocument(text) : asLines(text);
}

function asLines(text: string): Written {
  const lines = text.split("\n");
  // The last line ends with a line feed: what follows it is nothing.
  const ended = lines.at(-1) === "";
  if (ended) lines.pop();
  return { lines, ended, before: (events) => `${[lines[0], ...events].join("\n")}\n` };
}

function asDocument(text: string): Written {
  const at = text.lastIndexOf(ENDS);
  const body = at < 0 ? text : text.slice(0, at);
  const [head = "", ...events] = body.split("\n");
  const manifest = head.endsWith(EVENTS) ? head.slice(OPENS.length, -EVENTS.length) : "";
  const lines = [manifest, ...events.map((line) => line.replace(/,$/, ""))];
  const tail = at < 0 ? "" : text.slice(at + "\n],".length);
  if (at >= 0) lines.push(`{${tail.replace(/\n$/, "")}`);
  return { lines, ended: tail.endsWith("\n"), before: () => `${body}\n]` };
}

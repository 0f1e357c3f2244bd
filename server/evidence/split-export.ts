/** An exported record, split into the lines that NDJSON has. */
export interface ExportLines {
  /** The manifest, the events, and the signature if there is one. */
  lines: string[];
  /** True when the file ends as it must: nothing was cut off or added. */
  ended: boolean;
  /**
   * Returns the bytes that the signature covers.
   * @param events the lines that are events
   */
  before(events: readonly string[]): string;
}

const OPENS = '{"manifest":';
const EVENTS = ',"events":[';
const ENDS = '\n],"end":';

/**
 * Splits an export. A JSON export has the same manifest, events and signature as an NDJSON export, within one
 * document.
 */
export function splitExport(text: string): ExportLines {
  return text.startsWith(OPENS) ? asDocument(text) : asLines(text);
}

function asLines(text: string): ExportLines {
  const lines = text.split("\n");
  // The last line ends with a line feed, so the last element is empty.
  const ended = lines.at(-1) === "";
  if (ended) lines.pop();
  return { lines, ended, before: (events) => `${[lines[0], ...events].join("\n")}\n` };
}

function asDocument(text: string): ExportLines {
  const at = text.lastIndexOf(ENDS);
  const body = at < 0 ? text : text.slice(0, at);
  const [head = "", ...events] = body.split("\n");
  const manifest = head.endsWith(EVENTS) ? head.slice(OPENS.length, -EVENTS.length) : "";
  const lines = [manifest, ...events.map((line) => line.replace(/,$/, ""))];
  const tail = at < 0 ? "" : text.slice(at + "\n],".length);
  if (at >= 0) lines.push(`{${tail.replace(/\n$/, "")}`);
  return { lines, ended: tail.endsWith("\n"), before: () => `${body}\n]` };
}

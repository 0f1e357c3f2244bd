/** Returns standard input, trimmed: a PIN is not written on a command line, where others could read it. */
export async function enteredLine(): Promise<string> {
  const parts: Buffer[] = [];
  for await (const part of process.stdin) parts.push(part as Buffer);
  return Buffer.concat(parts).toString("utf8").trim();
}

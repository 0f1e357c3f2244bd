/**
 * Returns true when SQLite's error says that the file itself is damaged. A right that is missing, a lock or a disk that
 * does not answer is no damage: a backup would not help.
 */
export function isDamage(error: unknown): boolean {
  const code = String((error as { code?: unknown }).code);
  return code.startsWith("SQLITE_CORRUPT") || code.startsWith("SQLITE_NOTADB");
}

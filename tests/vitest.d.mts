/** Runs Vitest with these further arguments. Resolves to its exit code. */
export function runTests(...args: string[]): Promise<number>;

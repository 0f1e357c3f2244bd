import type { Directory } from "../store/directory.ts";

/** Returns a function that gives a person's name by id, or the id of what is no person, such as the console. */
export async function nameById(directory: Directory): Promise<(id: string) => string> {
  const names = new Map((await directory.people()).map((p) => [p.id, p.name]));
  return (id) => names.get(id) ?? id;
}

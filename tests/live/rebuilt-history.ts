import type { Written } from "../../shared/history/written/written.ts";

/** Returns what a server works out from the sealed events: everything written, the house's figures, starts and defects. */
export async function historyOf(url: string, token: string, aircraft: readonly string[]) {
  const ask = async (path: string) => {
    const reply = await fetch(`${url}/api${path}`, { headers: { authorization: `Bearer ${token}` } });
    if (reply.status !== 200) throw new Error(`${path}: ${reply.status}`);
    return reply.json();
  };
  // The index is read on in the background.
  while ((await ask("/search?limit=1")).unread > 0);
  const found: Written[] = [];
  for (let next: string | null = ""; next !== null; ) {
    const page: { found: Written[]; next: string | null } = await ask(
      `/search?limit=100${next ? `&before=${next}` : ""}`,
    );
    found.push(...page.found);
    next = page.next;
  }
  // The moment of asking differs.
  const { to: _to, ...house } = await ask("/house/history");
  const starts: unknown[] = [];
  for (const id of aircraft)
    starts.push(await ask(`/aircraft/${id}/history`), await ask(`/aircraft/${id}/defects`));
  return { found, house, starts };
}

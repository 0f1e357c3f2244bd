/** Returns every page of a list, by the address of the next one that each page has (RFC 8288). */
export async function eachPage<Page>(
  get: (path: string) => Promise<Response>,
  path: string,
): Promise<Page[]> {
  const pages: Page[] = [];
  for (let next: string | undefined = path; next !== undefined; ) {
    const response: Response = await get(next);
    pages.push((await response.json()) as Page);
    next = /^<([^>]*)>; rel="next"$/.exec(response.headers.get("link") ?? "")?.[1];
  }
  return pages;
}

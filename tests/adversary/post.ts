/** Posts JSON as a signed-in person. @throws Error with what the server said when it refuses */
export async function postJson<T>(url: string, body: unknown, token: string): Promise<T> {
  const reply = await fetch(url, {
    method: "POST",
    headers: { "content-type": "application/json", authorization: `Bearer ${token}` },
    body: JSON.stringify(body),
  });
  if (!reply.ok) throw new Error(await reply.text());
  return (await reply.json()) as T;
}

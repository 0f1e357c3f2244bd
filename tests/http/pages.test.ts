import fc from "fast-check";
import type { FastifyReply } from "fastify";
import { afterAll, beforeAll, expect, it } from "vitest";
import { type Place, pageOf, placeOf } from "../../server/http/pages.ts";
import type { DeadLetter } from "../../server/webhooks/progress.ts";
import { eachPage } from "../../web/net/pages.ts";
import { idsIn, type Paged, pagedLists } from "./paged.ts";
import { bearer, signIn, type TestServer, testServer } from "./test-server.ts";

let test: TestServer;
let lists: Readonly<Record<string, Paged>>;
let tokens: Record<Paged["as"], string>;
let paths: Record<string, Record<string, Operation>>;
const letters: DeadLetter[] = [];

interface Operation {
  parameters?: { name: string; in: string }[];
  responses: Record<string, { headers?: object; content?: Record<string, { schema: Schema }> }>;
}
interface Schema {
  type?: string;
  maxItems?: number;
}

beforeAll(async () => {
  const webhooks = { states: () => [], deadLetters: async () => letters } as never;
  test = await testServer({ webhooks });
  tokens = { di: await signIn(test.app, "di"), fay: await signIn(test.app, "fay") };
  lists = await pagedLists(test, letters);
  paths = (await test.app.inject({ url: "/docs/json" })).json().paths;
});
afterAll(() => test.close());

const at = (path: string, id = "CH-TST") => path.replace("{id}", path.startsWith("/api/people") ? "fay" : id);
const get = (path: string, as: Paged["as"]) =>
  test.app.inject({ url: at(path), headers: bearer(tokens[as]) });
const nextOf = (headers: Record<string, unknown>) =>
  /^<(.*)>; rel="next"$/.exec(String(headers.link ?? ""))?.[1];
const hasFilter = ({ parameters = [] }: Operation, filter: string) =>
  parameters.some(({ name }) => name === filter);

it("[INT-37] every list comes a page at a time or states the most that it holds", () => {
  const endless: string[] = [];
  const paged: string[] = [];
  for (const [path, { get: read }] of Object.entries(paths)) {
    const answer = read?.responses["200"];
    const schema = answer?.content?.["application/json"]?.schema;
    if (!read || !schema) continue;
    if (hasFilter(read, "limit") && hasFilter(read, "before")) {
      expect(answer.headers, path).toHaveProperty("Link");
      paged.push(path);
    } else if (schema.type === "array" && schema.maxItems === undefined) endless.push(path);
  }
  expect(endless).toEqual([]);
  // The search has rows of its own and a test of its own; the list of sessions is the model of all others.
  expect(paged.filter((path) => path !== "/api/search").sort()).toEqual(Object.keys(lists).sort());
});

it("[INT-38] no page of any list loses a row or has one twice while others are added", async () => {
  const each = Object.entries(lists);
  expect(each.length).toBeGreaterThan(20);
  let nth = 0;
  for (const [path, { add, as, rows = idsIn as never }] of each) {
    const read = async (from: string, between: () => Promise<unknown>) => {
      const found: string[] = [];
      for (let next: string | undefined = from; next !== undefined; ) {
        const reply = await get(next, as);
        expect(reply.statusCode, `${path} ${reply.body}`).toBe(200);
        const page = rows(reply.json() as never);
        expect(page.length, path).toBeLessThanOrEqual(2);
        found.push(...page);
        next = nextOf(reply.headers);
        if (next !== undefined) await between();
      }
      return found;
    };
    for (const stop = nth + 5; nth < stop; nth += 1) await add(nth);
    const there = await read(`${path}?limit=2`, async () => undefined);
    expect(there.length, path).toBeGreaterThanOrEqual(5);
    let added = 0;
    const seen = await read(`${path}?limit=2`, async () => {
      if (added >= 4) return;
      added += 1;
      nth += 1;
      await add(nth);
    });
    nth += 1;
    expect(new Set(seen).size, path).toBe(seen.length);
    // The rows that were there throughout, each once and in the same order.
    expect(
      seen.filter((row) => there.includes(row)),
      path,
    ).toEqual(there);
  }
}, 60_000);

it("[INT-38] a row that stays is in exactly one page, whatever is added and removed between them", () => {
  const place = fc.tuple(
    fc.nat(4),
    fc.string({ minLength: 1, maxLength: 2 }).filter((s) => /^[ -~]+$/.test(s)),
  );
  const key = ([rank, id]: Place) => `${rank}.${id}`;
  const unique = fc.uniqueArray(place, { maxLength: 25, selector: key });
  fc.assert(
    fc.property(
      unique,
      fc.array(unique, { maxLength: 30 }),
      fc.integer({ min: 1, max: 5 }),
      fc.boolean(),
      (stay, others, limit, newestFirst) => {
        const kept = new Set(stay.map(key));
        const seen: string[] = [];
        let before: string | undefined;
        for (let turn = 0; turn < 100; turn += 1) {
          let link = "";
          const reply = {
            request: { url: "/api/x", query: {} },
            header: (_: string, to: string) => (link = to),
          };
          const there = [
            ...stay,
            ...(others[turn % Math.max(1, others.length)] ?? []).filter((p) => !kept.has(key(p))),
          ];
          const page = pageOf(reply as never as FastifyReply, { limit, before }, there, {
            of: (p) => p,
            newestFirst,
          });
          seen.push(...page.map(key));
          const next = /^<(.*)>/.exec(link)?.[1];
          if (next === undefined) break;
          before = new URL(next, "http://x").searchParams.get("before") ?? undefined;
          expect(key(placeOf(before ?? ""))).toBe(seen.at(-1));
        }
        expect(seen.filter((row) => kept.has(row)).sort()).toEqual([...kept].sort());
      },
    ),
    { numRuns: 300 },
  );
});

it("[INT-38] a panel gathers every page of a list", async () => {
  const asked: string[] = [];
  const all = await eachPage<{ id: string }[]>(async (path) => {
    asked.push(path);
    const { body, headers } = await get(path, "fay");
    return new Response(body, { headers: headers.link ? { link: String(headers.link) } : {} });
  }, "/api/equipment?limit=3");
  const whole = (await get("/api/equipment", "fay")).json();
  expect(whole.length).toBeGreaterThan(6);
  expect(all.flat()).toEqual(whole);
  expect(asked).toHaveLength(Math.ceil(whole.length / 3));
});

it("[INT-39] a page that is no page of the list is refused, by the name of the filter", async () => {
  for (const [path, { as }] of Object.entries(lists))
    for (const query of [
      "before=x",
      "before=1.%00",
      "before=-1.x",
      "limit=0",
      "limit=201",
      "limit=2&limit=3",
    ]) {
      const reply = await get(`${path}?${query}`, as);
      const name = reply.json().type?.split(":").at(-1);
      expect([path, query, reply.statusCode, name]).toEqual([path, query, 400, "malformed"]);
      expect(reply.json().detail).toContain(query.split("=")[0]);
    }
});

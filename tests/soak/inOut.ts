import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { AddressRefused, type Resolve, resolveByDns } from "../../server/webhooks/address.ts";
import { sendTo } from "../../server/webhooks/send.ts";
import { START } from "../http/hand-clock.ts";
import { bearer, planned, signIn, testServer } from "../http/test-server.ts";
import { Chance } from "../sim/chance.ts";

const GOOD = '{"channel":"OILP","engine":1,"time":0,"value":60,"unit":"psi"}';
const ODD = [
  ...["", "null", "[]", "{", "1e999", "-0", "NaN", "Infinity", "0x10", '"', "\\u0000", "\u0000", "\ud800"],
  ...[
    "__proto__",
    "constructor",
    '{"$ne":1}',
    "'; DROP TABLE",
    "\r\n",
    ",,,,",
    "9".repeat(400),
    "é".repeat(60),
  ],
];
const PER_BODY = 20;

/** Returns a line of samples with some of its characters exchanged, cut or put in. */
function line(chance: Chance, now: number): string {
  let text = GOOD.replace('"time":0', `"time":${now + chance.below(8_000) - 4_000}`).replace(
    '"value":60',
    `"value":${chance.below(300) - 50}`,
  );
  if (chance.below(4) === 0) return text;
  for (let n = chance.below(4); n >= 0; n -= 1) {
    const at = chance.below(text.length + 1);
    const odd = ODD[chance.below(ODD.length)] ?? "";
    text = text.slice(0, at) + odd + text.slice(at + chance.below(6));
  }
  return text;
}

const HEX = "0123456789abcdef";
/** Returns a token with the form of one, or nearly so. */
function token(chance: Chance, like: string): string {
  const at = chance.below(like.length);
  const kind = chance.below(4);
  if (kind === 0) return like.slice(0, at);
  if (kind === 1) return like.slice(0, at) + HEX[chance.below(16)] + like.slice(at + 1);
  if (kind === 2)
    return `chockside_${Array.from({ length: 16 }, () => HEX[chance.below(16)]).join("")}_${"A".repeat(43)}`;
  return ODD[chance.below(ODD.length)]?.replaceAll(/[^\x20-\x7e]/g, "") ?? "";
}

/** Returns an address of no public network, written in one of the ways in which URLs may write it. */
function privateHost(chance: Chance): string {
  const byte = () => chance.below(256);
  const starts = [
    [127],
    [10],
    [192, 168],
    [172, 16 + chance.below(16)],
    [169, 254],
    [100, 64],
    [0],
    [198, 18],
  ];
  const start = starts[chance.below(starts.length)] ?? [127];
  const bytes = [...start, byte(), byte(), byte()].slice(0, 4);
  const [a = 0, b = 0, c = 0, d = 0] = chance.below(3) === 0 ? [127, 0, 0, 1] : bytes;
  const whole = ((a << 24) | (b << 16) | (c << 8) | d) >>> 0;
  const hex = (n: number) => n.toString(16);
  const mapped = `${hex((a << 8) | b)}:${hex((c << 8) | d)}`;
  const ways = [
    `${a}.${b}.${c}.${d}`,
    `${whole}`,
    `0x${hex(whole)}`,
    `0${a.toString(8)}.0${b.toString(8)}.0${c.toString(8)}.0${d.toString(8)}`,
    `0x${hex(a)}.${b}.${(c << 8) | d}`,
    `${a}.${(b << 16) | (c << 8) | d}`,
    `[::ffff:${mapped}]`,
    `[0:0:0:0:0:ffff:${a}.${b}.${c}.${d}]`,
    `[64:ff9b::${mapped}]`,
    `[2002:${mapped}::1]`,
    "[::1]",
    "[::]",
    `[fe80::${hex(byte() + 1)}]`,
    `[fd${hex(byte()).padStart(2, "0")}::1]`,
    "localhost",
    "LOCALHOST.",
    "１２７.0.0.1",
  ];
  return ways[chance.below(ways.length)] ?? "127.0.0.1";
}

/** Returns a look-up that asks the machine once for each name: a name that it does not know takes it long. */
function asOnce(resolve: Resolve): Resolve {
  const known = new Map<string, ReturnType<Resolve>>();
  return (host) => {
    const found = known.get(host) ?? resolve(host);
    known.set(host, found);
    return found;
  };
}

/**
 * Sends this many hostile samples, tokens and webhook targets. Returns true when nothing crashed, no session moved, no
 * token was taken and no request was sent.
 */
export async function inOutSoak(cases: number, seed: number): Promise<boolean> {
  const chance = new Chance(seed);
  const faults: string[] = [];
  const server = await testServer();
  const { accounts, sessions } = server.services;
  const by = { id: "di", name: "Di", mayHold: ["supervisor" as const] };
  const scopes = [{ is: "pushReadings" as const, aircraft: "CH-TST" }];
  const { token: good } = await accounts.add(by, { name: "Logger", until: "2027-06-09", scopes });
  const channels = [{ channel: "OILP", gauge: "oilPressure", engine: 1, unit: "psi", quality: null }];
  const mapped = await server.app.inject({
    ...{ method: "PUT", url: "/api/aircraft/CH-TST/channels", payload: { channels } },
    headers: { ...bearer(await signIn(server.app, "di")), "if-match": '"0"' },
  });
  if (mapped.statusCode !== 200) throw new Error(mapped.body);
  const session = (await planned(server.app, await signIn(server.app, "fay"))).id;
  let commands = 0;
  const act = (person: string, action: object) => {
    commands += 1;
    const id = `30000000-0000-4000-8000-${String(commands).padStart(12, "0")}`;
    const all = ["cockpit", "fireGuard", "groundPower", "supervisor"] as const;
    const who = { id: person, name: person, device: `${person}-tablet`, mayHold: all };
    return sessions.command(who, { v: 1, id, session, clientAt: 0, action } as never);
  };
  const crew = { ada: "cockpit", bo: "fireGuard", cy: "groundPower", di: "supervisor" };
  for (const [person, post] of Object.entries(crew)) await act(person, { type: "claimPost", post });
  await act("di", { type: "advance", to: "brief" });
  for (const person of Object.keys(crew)) await act(person, { type: "confirmBrief" });
  await act("di", { type: "advance", to: "secure" });
  const underWay = () => sessions.underWay("CH-TST")?.state;
  const before = underWay();
  if (before?.stage !== "secure") throw new Error("the session did not leave its brief");

  let now = START;
  const push = (payload: string, as: string, type: string) =>
    server.app.inject({
      ...{ method: "POST", url: "/api/feeds/CH-TST", payload },
      headers: { authorization: `Bearer ${as}`, "content-type": type },
    });
  const sum = { samples: 0, tokens: 0, targets: 0, taken: 0, connected: 0 };
  for (; sum.samples < cases; sum.samples += PER_BODY) {
    const csv = chance.below(3) === 0;
    const lines = Array.from({ length: PER_BODY }, () => line(chance, now));
    const body = csv ? `channel,engine,time,value,unit\n${lines.join("\n")}` : lines.join("\n");
    const reply = await push(body, good, csv ? "text/csv" : "application/x-ndjson");
    if (reply.statusCode >= 500) faults.push(`samples: ${reply.statusCode} ${body}`);
    const state = underWay();
    if (state?.stage !== "secure" || state.epoch !== before.epoch) faults.push(`the session moved: ${body}`);
    const read = Object.values(state?.instruments ?? {}).find((i) => !(i.value >= 0 && i.value <= 200));
    if (read) faults.push(`off the scale: ${JSON.stringify(read)}`);
    if (chance.below(50) === 0) {
      await server.hand.pass(1_000);
      now += 1_000;
    }
  }
  sum.taken = server.services.feeds.counts.taken;
  for (; sum.tokens < cases; sum.tokens += 1) {
    const as = token(chance, good);
    const reply = await push(GOOD, as, "application/x-ndjson");
    if (reply.statusCode >= 500 || (reply.statusCode < 300 && as !== good))
      faults.push(`token ${as}: ${reply.statusCode}`);
  }
  const listener = createServer(() => {
    sum.connected += 1;
  });
  listener.on("connection", (socket) => {
    sum.connected += 1;
    socket.destroy();
  });
  await new Promise<void>((done) => listener.listen(0, "127.0.0.1", done));
  const resolve = asOnce(resolveByDns);
  const { port } = listener.address() as AddressInfo;
  for (; sum.targets < cases; sum.targets += 1) {
    const url = `http://${privateHost(chance)}:${port}/`;
    const target = { name: "odd", url, secret: `whsec_${"A".repeat(32)}`, kinds: [], networks: [] };
    const failed = await sendTo(target, { id: "1", body: "{}", now }, resolve).catch((e: Error) => e);
    // An address that no URL may hold is refused by the URL itself, and no name may lead on.
    const refused =
      failed instanceof AddressRefused ||
      failed instanceof TypeError ||
      /ENOTFOUND|EAI_AGAIN/.test(String(failed));
    if (!refused) faults.push(`target ${url}: ${String(failed)}`);
  }
  if (sum.connected > 0) faults.push(`${sum.connected} requests reached this machine`);
  listener.close();
  await server.close();
  for (const fault of faults.slice(0, 50)) console.log(`FAULT ${fault}`);
  console.log(`seed ${seed}: ${JSON.stringify(sum)}, ${faults.length} faults`);
  return faults.length === 0 && sum.taken > 0;
}

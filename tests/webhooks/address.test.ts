import { expect, it } from "vitest";
import { mayReach, pinned } from "../../server/webhooks/address.ts";
import { Chance } from "../sim/chance.ts";

/** Addresses by the IANA special-purpose registries (RFC 6890 and its updates, from memory), and neighbours outside. */
const FORBIDDEN = [
  ...["0.0.0.0", "10.1.2.3", "100.64.0.1", "127.0.0.1", "127.255.255.254", "169.254.169.254", "172.16.0.1"],
  ...["172.31.255.255", "192.0.0.1", "192.0.2.1", "192.168.1.1", "198.18.0.1", "198.51.100.7", "203.0.113.9"],
  ...["224.0.0.1", "255.255.255.255", "::", "::1", "fe80::1", "fc00::1", "fd12:3456::1", "ff02::1"],
  ...["::ffff:127.0.0.1", "::ffff:7f00:1", "::ffff:10.0.0.1", "0:0:0:0:0:ffff:a00:1", "::127.0.0.1"],
  ...["64:ff9b::7f00:1", "2001::1", "2001:db8::1", "2002:7f00:1::1", "fe80::1%eth0", "none", ""],
];
const PUBLIC = ["8.8.8.8", "172.15.0.1", "172.32.0.1", "100.128.0.1", "2606:4700::1111", "::ffff:8.8.8.8"];

it("[INT-22] no private, local or special address is reached unless its network is named", () => {
  expect(FORBIDDEN.filter((address) => mayReach(address, []))).toEqual([]);
  expect(PUBLIC.filter((address) => !mayReach(address, []))).toEqual([]);
  expect(mayReach("10.1.2.3", ["10.1.2.0/24"])).toBe(true);
  expect(mayReach("::ffff:10.1.2.3", ["10.1.2.0/24"])).toBe(true);
  expect(mayReach("10.1.3.3", ["10.1.2.0/24"])).toBe(false);
  expect(mayReach("fd00::5", ["fd00::/8"])).toBe(true);
});

/** Ways of writing an address that URLs read as 127.0.0.1 (WHATWG URL standard, host parsing). */
const TRICKS = [
  ...["http://2130706433/", "http://0x7f000001/", "http://0177.0.0.1/", "http://127.1/", "http://0x7f.1/"],
  ...[
    "http://%31%32%37.0.0.1/",
    "http://127。0。0。1/",
    "http://[::ffff:127.0.0.1]/",
    "http://[::ffff:7f00:1]/",
  ],
  ...["http://[::1]/", "http://0/", "http://[0:0:0:0:0:ffff:127.0.0.1]/"],
];

it("[INT-22] no way of writing an address gets past the judgement, and no name is asked for one", async () => {
  const asked: string[] = [];
  const resolve = async (host: string) => {
    asked.push(host);
    return [];
  };
  for (const url of TRICKS)
    await expect(pinned(new URL(url).hostname, [], resolve), url).rejects.toThrow(
      "not on the public internet",
    );
  expect(asked).toEqual([]);
});

it("[INT-22] a name is asked once and its answer is used as it is; one forbidden address among several refuses all", async () => {
  let asks = 0;
  const answers = [[{ address: "8.8.8.8", family: 4 }], [{ address: "127.0.0.1", family: 4 }]];
  const changing = async () => answers[Math.min(asks++, 1)] ?? [];
  expect(await pinned("hooks.example", [], changing)).toEqual({ address: "8.8.8.8", family: 4 });
  expect(asks).toBe(1);
  const mixed = async () => [...(answers[0] ?? []), ...(answers[1] ?? [])];
  await expect(pinned("hooks.example", [], mixed)).rejects.toThrow("not on the public internet");
  await expect(pinned("nowhere.example", [], async () => [])).rejects.toThrow();
});

it("[INT-22] none of 4,000 random writings of private addresses is reached (seed 77)", () => {
  const chance = new Chance(77);
  const octet = () => chance.below(256);
  for (let n = 0; n < 1_000; n += 1) {
    const inner = [10, 127, 192][chance.below(3)] as number;
    const four = [inner, inner === 192 ? 168 : octet(), octet(), octet()];
    const number = four.reduce((sum, part) => sum * 256 + part, 0);
    const hex = number.toString(16).padStart(8, "0");
    const writings = [
      String(number),
      `0x${hex}`,
      four.map((part) => `0${part.toString(8)}`).join("."),
      `[::ffff:${hex.slice(0, 4)}:${hex.slice(4)}]`,
    ];
    for (const writing of writings) {
      const host = new URL(`http://${writing}/`).hostname.replace(/^\[|\]$/g, "");
      expect(mayReach(host, []), writing).toBe(false);
    }
  }
});

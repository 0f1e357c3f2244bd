import { createPublicKey, generateKeyPairSync } from "node:crypto";
import { chmodSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { checkFile } from "../../server/evidence/check-file.ts";
import { noteTools } from "../../server/evidence/note-tools.ts";
import { openSigner } from "../../server/evidence/signer.ts";
import { StartRefused } from "../../server/start-refused.ts";
import { StoreFailure } from "../../server/store/events.ts";
import { MemoryEventStore } from "../../server/store/memory-events.ts";
import { openCheckpoint } from "../../shared/evidence/checkpoint.ts";
import { leafHash } from "../../shared/evidence/merkle.ts";
import { growsInto, includes } from "../../shared/evidence/merkleProof.ts";
import { fromHex, utf8 } from "../../shared/evidence/note.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import { START } from "./hand-clock.ts";
import { bearer, planned, signIn, type TestServer, testServer } from "./test-server.ts";

/** A store that keeps events but no checkpoint. */
class NoCheckpoints extends MemoryEventStore {
  override async addCheckpoint(): Promise<void> {
    throw new StoreFailure("the disk is full");
  }
}

const { hash } = noteTools;
const di = { id: "di", name: "Di", device: "di-tablet", mayHold: ["supervisor" as const] };
let test: TestServer;
let session: string;
let token: string;
let commands = 0;

async function begin(store?: MemoryEventStore) {
  test = await testServer(store ? { store } : {});
  token = await signIn(test.app, "di");
  session = (await planned(test.app, token)).id;
}
beforeEach(() => begin());
afterEach(() => test.close());

function say(action: Action) {
  commands += 1;
  const id = `00000000-0000-4000-8000-2${String(commands).padStart(11, "0")}`;
  return test.services.sessions.command(di, { v: 1, id, session, clientAt: 5, action });
}
async function toBrief() {
  await say({ type: "claimPost", post: "supervisor" });
  await say({ type: "advance", to: "brief" });
  await test.services.notary.idle();
}
const get = (path: string, as = token) => test.app.inject({ url: `/api${path}`, headers: bearer(as) });
const key = async () => fromHex((await get("/evidence/key")).json().publicKey);
const checkpoint = async () => {
  const reply = await get(`/sessions/${session}/checkpoint`);
  expect(reply.headers["content-type"]).toBe("text/plain; charset=utf-8");
  return { note: reply.body, ...openCheckpoint(reply.body, [await key()], noteTools) };
};

describe("checkpoints", () => {
  it("[CHP-4] are signed when a stage is reached, without being asked for", async () => {
    expect(await test.services.store.checkpoints(session)).toEqual([]);
    await toBrief();
    const [made, ...more] = await test.services.store.checkpoints(session);
    expect(more).toEqual([]);
    const events = await test.services.store.read(session, 0, 100);
    const reached = events.find((e) => e.type === "stageReached");
    expect(made?.size).toBe(reached?.seq);
    expect(openCheckpoint(made?.note ?? "", [await key()], noteTools)).toMatchObject({ session, at: START });
  });

  it("[CHP-3] are written as C2SP tlog-checkpoint has it, and opened by the right key alone", async () => {
    const { note, size } = await checkpoint();
    expect(note.split("\n").slice(0, 2)).toEqual([`chockside/session/${session}`, "1"]);
    expect(note).toMatch(
      /\n[A-Za-z0-9+/]{43}=\ntime 2026-06-01T09:00:00\.000Z\n\n— chockside [A-Za-z0-9+/]{91}=\n$/,
    );
    expect(size).toBe(1);
    expect(openCheckpoint(note, [new Uint8Array(32)], noteTools)).toBeNull();
    expect(openCheckpoint(note.replace("\n1\n", "\n2\n"), [await key()], noteTools)).toBeNull();
  });

  it("[CHP-4, SRV-3] are given to whoever is signed in, and to nobody else", async () => {
    for (const path of ["/evidence/key", `/sessions/${session}/checkpoint`])
      expect((await test.app.inject({ url: `/api${path}` })).statusCode).toBe(401);
    expect((await get("/sessions/none/checkpoint")).statusCode).toBe(404);
  });

  it("[CHP-2, CHP-4] prove that an event is in the record, and that it only grew", async () => {
    const first = await checkpoint();
    await toBrief();
    await say({ type: "send", kind: "hold", channel: "panel" });
    const last = await checkpoint();
    const [from, to] = [first.size ?? 0, last.size ?? 0];
    expect(to).toBeGreaterThan(3);
    const grown = await get(`/sessions/${session}/proofs/consistency?from=${from}&to=${to}`);
    const claim = {
      first: { size: from, root: first.root as Uint8Array },
      second: { size: to, root: last.root as Uint8Array },
      proof: grown.json().proof.map(fromHex),
    };
    expect(growsInto(claim, hash)).toBe(true);
    for (const { seq, body } of await test.services.store.read(session, 0, 100)) {
      const reply = await get(`/sessions/${session}/proofs/inclusion?event=${seq}&size=${to}`);
      const leaf = leafHash(utf8(body), hash);
      expect(fromHex(reply.json().leaf)).toEqual(new Uint8Array(leaf));
      const proof = reply.json().proof.map(fromHex);
      expect(includes({ leaf, index: seq - 1, size: to, root: last.root as Uint8Array, proof }, hash)).toBe(
        true,
      );
    }
  });

  it.each([
    ["inclusion?event=1&size=9", "The session has 1 events"],
    ["inclusion?event=2&size=1", "Event 2 is not among the first 1"],
    ["consistency?from=1&to=9", "The session has 1 events"],
    ["consistency?from=2&to=1", "2 events are no beginning of 1"],
    ["inclusion?event=0&size=1", "querystring"],
  ])("[CHP-4, SRV-2] refuse %s with the reason", async (path, says) => {
    const reply = await get(`/sessions/${session}/proofs/${path}`);
    expect([reply.statusCode, reply.body]).toEqual([400, expect.stringContaining(says)]);
  });

  it("[CHP-5] that cannot be kept or signed stop no event, no answer and no export", async () => {
    await test.close();
    await begin(new NoCheckpoints());
    await toBrief();
    expect((await test.services.sessions.get(session)).state.stage).toBe("brief");
    expect(await test.services.store.checkpoints(session)).toEqual([]);
    const { body } = await get(`/sessions/${session}/evidence`);
    expect(checkFile(body)).toMatchObject({ ok: true });
    const { signer } = test.services;
    let gone = false;
    const broken = await testServer({
      signer: {
        ...signer,
        sign: (bytes) => {
          if (gone) throw new Error("the key is gone");
          return signer.sign(bytes);
        },
      },
    });
    gone = true;
    session = (await planned(broken.app, await signIn(broken.app, "di"))).id;
    await test.close();
    test = broken;
    await toBrief();
    expect((await broken.services.sessions.get(session)).state.stage).toBe("brief");
    expect(await say({ type: "send", kind: "hold", channel: "panel" })).toMatchObject({ status: "accepted" });
  });
});

describe("the signing key", () => {
  let folder: string;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), "chockside-key-"));
  });
  afterEach(() => rmSync(folder, { recursive: true }));

  it("[CHP-6] is made once, readable to its owner alone, and the same ever after", () => {
    const file = join(folder, "new", "evidence-key.pem");
    const first = openSigner({ file, ours: true });
    expect(statSync(file).mode & 0o777).toBe(0o600);
    expect(openSigner({ file, ours: true }).publicHex).toBe(first.publicHex);
    const { x = "" } = createPublicKey(readFileSync(file, "utf8")).export({ format: "jwk" });
    expect(Buffer.from(x, "base64url").toString("hex")).toBe(first.publicHex);
  });

  it("[CHP-6] that others can read, is missing, is invalid or has another kind is refused with what to do", () => {
    const file = join(folder, "evidence-key.pem");
    const refused = (ours: boolean) => {
      try {
        openSigner({ file, ours });
      } catch (error) {
        expect(error).toBeInstanceOf(StartRefused);
        return (error as Error).message;
      }
      return "";
    };
    expect(refused(false)).toContain("check CHOCKSIDE_SIGNING_KEY");
    writeFileSync(file, "secret", { mode: 0o600 });
    expect(refused(true)).toContain("is no private key in PEM form");
    const { privateKey } = generateKeyPairSync("ec", { namedCurve: "P-256" });
    writeFileSync(file, privateKey.export({ type: "pkcs8", format: "pem" }));
    expect(refused(false)).toContain("is not of Ed25519");
    chmodSync(file, 0o644);
    expect(refused(true)).toContain("can be read by others: run chmod 600");
  });
});

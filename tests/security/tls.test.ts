import { execFileSync } from "node:child_process";
import { X509Certificate } from "node:crypto";
import { chmodSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { type RequestOptions, request } from "node:https";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { connect, type SecureVersion } from "node:tls";
import { io } from "socket.io-client";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import { openTls, type Tls } from "../../server/tls.ts";
import { PROTOCOL } from "../../shared/protocol/version.ts";
import { signIn, type TestServer, testServer } from "../http/test-server.ts";

const DAY = 24 * 3_600_000;
const NOW = Date.now();

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "chockside-tls-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const at = (name: string) => ({
  cert: join(folder, `${name}-cert.pem`),
  key: join(folder, `${name}-key.pem`),
});
const authorityAt = (name: string) => ({
  root: join(folder, `${name}-authority.crt`),
  rootKey: join(folder, `${name}-authority-key.pem`),
});
const own = (name: string, now = NOW, names = ["ramp.example", "10.0.0.5"]) =>
  openTls({ is: "own", ...at(name), ...authorityAt(name), names }, now) as Promise<Tls>;

/** Returns a certificate made by OpenSSL, as an operator would bring one. */
function supplied(name: string, ...how: string[]) {
  const { cert, key } = at(name);
  const what = [
    "-subj",
    "/CN=localhost",
    "-addext",
    "subjectAltName=DNS:localhost",
    "-keyout",
    key,
    "-out",
    cert,
  ];
  execFileSync("openssl", ["req", "-x509", "-nodes", ...how, ...what], { stdio: "pipe" });
  return { is: "files", cert, key } as const;
}
const P256 = ["-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1"];

describe("a certificate of the server's own", () => {
  it("[SEC-2] is made at the first start, for this machine and the names given, its key for this user alone", async () => {
    const tls = await own("first");
    const x509 = new X509Certificate(tls.cert);
    for (const name of ["localhost", "ramp.example"]) expect(x509.checkHost(name)).toBe(name);
    for (const address of ["127.0.0.1", "10.0.0.5"]) expect(x509.checkIP(address)).toBe(address);
    expect(x509.checkHost("evil.example")).toBeUndefined();
    expect(x509.ca).toBe(false);
    expect(statSync(at("first").key).mode & 0o777).toBe(0o600);
    // OpenSSL's own judgement of the same file.
    const said = execFileSync("openssl", [
      "x509",
      "-in",
      authorityAt("first").root,
      "-noout",
      "-fingerprint",
      "-sha256",
    ]);
    expect(String(said).trim().split("=")[1]).toBe(tls.fingerprint);
    expect(tls.publiclyTrusted).toBe(false);
  });

  it("[SEC-2] stays the same until a month before it ends; a name it lacks is told", async () => {
    const first = await own("kept");
    expect((await own("kept", NOW + 365 * DAY)).cert).toBe(first.cert);
    expect((await own("kept", NOW + 367 * DAY)).cert).not.toBe(first.cert);
    expect((await own("kept", NOW + 367 * DAY, ["new.example"])).advice).toContain(
      "does not name new.example",
    );
  });

  it("[SEC-2] is not used when its key is open to others", async () => {
    await own("open");
    chmodSync(at("open").key, 0o644);
    await expect(own("open")).rejects.toThrow("can be read by others");
  });
});

/** Returns OpenSSL's judgement of a certificate under an authority. */
function judged(root: string, cert: string, ...more: string[]): string {
  try {
    const how = ["verify", "-x509_strict", "-purpose", "sslserver", "-CAfile", root, ...more, cert];
    return String(execFileSync("openssl", how, { stdio: "pipe" })).trim();
  } catch (error) {
    const { stdout, stderr } = error as { stdout: Buffer; stderr: Buffer };
    return `${stdout}${stderr}`;
  }
}

/** Returns what OpenSSL reads in a certificate. */
const written = (cert: string): string =>
  String(execFileSync("openssl", ["x509", "-in", cert, "-noout", "-text"]));

describe("an authority of the server's own", () => {
  it("[HSE-24] signs a certificate that OpenSSL finds good for each name, strictly by RFC 5280", async () => {
    await own("chain");
    const [{ root }, { cert }] = [authorityAt("chain"), at("chain")];
    for (const name of ["localhost", "ramp.example"])
      expect(judged(root, cert, "-verify_hostname", name)).toBe(`${cert}: OK`);
    for (const ip of ["127.0.0.1", "10.0.0.5"])
      expect(judged(root, cert, "-verify_ip", ip)).toBe(`${cert}: OK`);
    expect(judged(root, cert, "-verify_hostname", "evil.example")).toMatch(/[Hh]ostname mismatch/);
    expect(judged(at("first").cert, cert)).toMatch(/unable to get/);
  });

  it("[HSE-24] has what iPads, Android and Windows ask of it: an authority that says so, and a server's that does not", async () => {
    await own("asked");
    const [root, cert] = [written(authorityAt("asked").root), written(at("asked").cert)];
    expect(root).toMatch(/Basic Constraints: critical\s+CA:TRUE, pathlen:0/);
    expect(root).toMatch(/Key Usage: critical\s+Certificate Sign, CRL Sign/);
    expect(root).toMatch(/Name Constraints: critical/);
    expect(cert).toMatch(/Basic Constraints: critical\s+CA:FALSE/);
    expect(cert).toMatch(/Extended Key Usage:\s+TLS Web Server Authentication/);
    expect(cert).toMatch(/Signature Algorithm: ecdsa-with-SHA256/);
    expect(cert).toMatch(/DNS:localhost/);
    const x509 = new X509Certificate(readFileSync(at("asked").cert));
    const days = (Date.parse(x509.validTo) - Date.parse(x509.validFrom)) / DAY;
    expect(days).toBeLessThanOrEqual(398);
  });

  it("[HSE-24] whose key is stolen signs no other name, no public address and no authority that a device would take", async () => {
    await own("stolen");
    const { root, rootKey } = authorityAt("stolen");
    /** Signs a certificate as a thief would, by this authority's certificate and key. */
    const sign = (name: string, [by, byKey]: readonly [string, string], ...extensions: string[]) => {
      const [request, key, file] = ["csr", "key", "ext"].map((is) => join(folder, `${name}.${is}`));
      if (!request || !key || !file) throw new Error("three files");
      const how = ["req", "-new", "-nodes", ...P256, "-subj", `/CN=${name}`, "-keyout", key, "-out", request];
      execFileSync("openssl", how, { stdio: "pipe" });
      writeFileSync(file, extensions.join("\n"));
      const cert = join(folder, `${name}.pem`);
      const more = ["-CA", by, "-CAkey", byKey, "-days", "30", "-extfile", file, "-out", cert];
      execFileSync("openssl", ["x509", "-req", "-in", request, ...more], { stdio: "pipe" });
      return [cert, key] as const;
    };
    const ids = ["subjectKeyIdentifier=hash", "authorityKeyIdentifier=keyid"];
    const forged = (name: string, what: string) => sign(name, [root, rootKey], what, ...ids);
    const [good] = forged("good", "subjectAltName=DNS:other.local");
    expect(judged(root, good)).toBe(`${good}: OK`);
    for (const [name, what] of [
      ["bank", "DNS:bank.example"],
      ["public", "IP:8.8.8.8"],
    ] as const)
      expect(judged(root, forged(name, `subjectAltName=${what}`)[0])).toMatch(/permitted subtree violation/);
    const authority = ["basicConstraints=critical,CA:TRUE", "keyUsage=critical,keyCertSign", ...ids];
    const second = sign("second", [root, rootKey], ...authority);
    const [below] = sign("below", second, "subjectAltName=DNS:other.local", ...ids);
    expect(judged(root, below, "-untrusted", second[0])).toMatch(/path length constraint exceeded/);
  });

  it("[HSE-24] stays the same as certificates are renewed, and its key may be kept elsewhere until then", async () => {
    const first = await own("apart");
    const { rootKey } = authorityAt("apart");
    expect((await own("apart", NOW + 380 * DAY)).fingerprint).toBe(first.fingerprint);
    expect((await own("apart", NOW + 380 * DAY)).cert).not.toBe(first.cert);
    const kept = readFileSync(rootKey);
    rmSync(rootKey);
    const without = await own("apart", NOW + 760 * DAY);
    expect(without.advice).toMatch(/runs out in \d+ days: bring .*-authority-key\.pem back/);
    await expect(own("apart", NOW + 800 * DAY)).rejects.toThrow("bring the authority's key back");
    writeFileSync(rootKey, kept, { mode: 0o600 });
    expect((await own("apart", NOW + 800 * DAY)).fingerprint).toBe(first.fingerprint);
  });

  it("[HSE-24] is made whole by the next start after a server was killed while it made it", async () => {
    const files = { ...at("killed"), ...authorityAt("killed") };
    const order = [files.rootKey, files.root, files.key, files.cert];
    for (let had = 1; had < order.length; had += 1) {
      await own("killed");
      for (const file of order.slice(had)) rmSync(file);
      const tls = await own("killed");
      expect(judged(files.root, files.cert)).toBe(`${files.cert}: OK`);
      expect(tls.advice).toBeNull();
    }
    // Renewed in part: the new key beside the old certificate.
    await own("killed");
    writeFileSync(files.key, readFileSync(at("chain").key), { mode: 0o600 });
    expect((await own("killed")).advice).toBeNull();
  });

  it("[HSE-24] a certificate that an earlier version made is used as long as it is good, and its end is told", async () => {
    const { cert, key } = supplied("before", ...P256, "-days", "300");
    chmodSync(key, 0o600);
    const tls = await own("before");
    expect(tls.cert).toBe(readFileSync(cert, "utf8"));
    expect([tls.root, tls.advice]).toEqual([null, expect.stringContaining("an earlier version made")]);
  });
});

describe("a certificate that was supplied", () => {
  it.each<[string, () => Parameters<typeof openTls>[0], RegExp]>([
    ["not there", () => ({ is: "files", ...at("none") }), /cannot be read/],
    ["no certificate", () => ({ is: "files", ...at("first"), cert: at("first").key }), /is not in PEM form/],
    ["with another's key", () => ({ is: "files", ...at("first"), key: at("kept").key }), /is not the key of/],
    ["weak", () => supplied("weak", "-newkey", "rsa:1024"), /too weak/],
    ["over", () => supplied("over", ...P256, "-days", "1"), /ran out/],
  ])("[SEC-2] keeps the server from starting when it is %s", async (_what, choice, why) => {
    await expect(openTls(choice(), NOW + 3 * DAY)).rejects.toThrow(why);
  });

  it("[SEC-2] is used, with a warning when it ends soon", async () => {
    const choice = supplied("good", ...P256, "-days", "20");
    expect((await openTls(choice, NOW))?.advice).toMatch(/runs out in (19|20) days/);
  });
});

describe("a server that speaks TLS", () => {
  let server: TestServer;
  let tls: Tls;
  afterEach(() => server.close());
  async function listen(publiclyTrusted = false): Promise<number> {
    tls = { ...(await own("served")), publiclyTrusted };
    server = await testServer({ tls });
    await server.app.listen({ port: 0, host: "127.0.0.1" });
    return (server.app.server.address() as AddressInfo).port;
  }
  const get = (port: number, options: RequestOptions) =>
    new Promise<{ status: number; headers: Record<string, unknown> }>((resolve, reject) => {
      const asked = request({ host: "localhost", port, path: "/health/live", ...options }, (reply) => {
        reply.resume();
        resolve({ status: reply.statusCode ?? 0, headers: reply.headers });
      });
      asked.on("error", reject).end();
    });

  it("[SEC-2] answers only clients that trust its certificate, on HTTP and on a socket", async () => {
    const port = await listen();
    const { status, headers } = await get(port, { ca: readFileSync(authorityAt("served").root) });
    expect(status).toBe(200);
    expect(headers["strict-transport-security"]).toBeUndefined();
    expect(headers["cross-origin-opener-policy"]).toBe("same-origin");
    await expect(get(port, {})).rejects.toThrow(/unable to verify/);
    const token = await signIn(server.app, "ada");
    const socket = io(`https://localhost:${port}`, {
      path: "/live",
      transports: ["websocket"],
      ca: tls.root,
      auth: { token, proto: PROTOCOL },
    } as never);
    await new Promise<void>((resolve, reject) => socket.on("connect", resolve).on("connect_error", reject));
    socket.disconnect();
  });

  it("[SEC-2] sends HSTS with a publicly trusted certificate", async () => {
    const port = await listen(true);
    const { headers } = await get(port, { ca: tls.root as string });
    expect(headers["strict-transport-security"]).toBe("max-age=31536000");
  });

  // Suites: RFC 9325 section 4.2 (from memory) recommends GCM with a fresh key exchange, and not CBC.
  it.each<[SecureVersion, string, boolean]>([
    ["TLSv1.1", "DEFAULT", false],
    ["TLSv1.2", "DEFAULT", true],
    ["TLSv1.2", "ECDHE-ECDSA-AES128-GCM-SHA256", true],
    ["TLSv1.2", "ECDHE-ECDSA-AES128-SHA", false],
    ["TLSv1.2", "ECDHE-ECDSA-AES256-SHA384", false],
    ["TLSv1.3", "DEFAULT", true],
  ])("[SEC-2] at %s with %s: %s", async (version, suites, spoken) => {
    const port = await listen();
    const heard = await new Promise<boolean>((resolve) => {
      // Level 0, so that the server, not OpenSSL, is the one that refuses.
      const how = {
        minVersion: version,
        maxVersion: version,
        ciphers: `${suites}:@SECLEVEL=0`,
        ca: tls.root as string,
      };
      const socket = connect({ host: "localhost", port, servername: "localhost", ...how }, () => {
        socket.destroy();
        resolve(true);
      });
      socket.on("error", () => resolve(false));
    });
    expect(heard).toBe(spoken);
  });
});

import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { readPdf } from "../print/reader.ts";
import { bearer, planned, signIn, type TestServer, testServer } from "./test-server.ts";

let test: TestServer;
let token: string;
let session: string;
beforeEach(async () => {
  test = await testServer();
  token = await signIn(test.app, "di");
  session = (
    await planned(test.app, token, {
      crew: { cockpit: "ada", fireGuard: "bo", groundPower: "cy", supervisor: "di" },
    })
  ).id;
});
afterEach(() => test.close());

const take = (url: string, headers: Record<string, string> = bearer(token)) =>
  test.app.inject({ url, headers });

describe("printing over HTTP", () => {
  it("[PRN-13] brief and record of a session, and the card before any, are PDFs for whoever is signed in", async () => {
    const urls = [
      `/api/sessions/${session}/brief.pdf`,
      `/api/sessions/${session}/record.pdf`,
      "/api/card.pdf",
    ];
    for (const url of urls) {
      const reply = await take(url);
      expect(reply.statusCode).toBe(200);
      expect(reply.headers["content-type"]).toBe("application/pdf");
      expect(reply.headers["content-disposition"]).toMatch(
        /^inline; filename="chockside-[A-Za-z0-9-]+\.pdf"$/,
      );
      expect(reply.headers["cache-control"]).toBe("no-store");
      expect(reply.rawPayload.subarray(0, 5).toString()).toBe("%PDF-");
      expect((await take(url, {})).statusCode).toBe(401);
    }
  });

  it("[PRN-13] a session nobody planned has neither brief nor record", async () => {
    for (const sheet of ["brief", "record"])
      expect((await take(`/api/sessions/nobodys/${sheet}.pdf`)).statusCode).toBe(404);
  });

  it("[PRN-4] the brief names the crew as planned, and nobody who may not sign in any more", async () => {
    const { solid, pages } = await readPdf((await take(`/api/sessions/${session}/brief.pdf`)).rawPayload);
    for (const name of ["Ada", "Bo", "Cy", "Di"]) expect(pages[0]).toContain(name);
    expect(solid).toContain("Fay");
    expect(solid).not.toContain("Gone");
  });

  it("[PRN-8] the record ends in the very hash the store ends in", async () => {
    const { pages } = await readPdf((await take(`/api/sessions/${session}/record.pdf`)).rawPayload);
    const row = await test.services.store.session(session);
    expect(pages.at(-1)).toContain(row?.headHash);
  });
});

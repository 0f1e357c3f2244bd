import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { exif, LOSSY, PROGRESSIVE, segment, TRANSPARENT, withSegments } from "../pictures/files.ts";
import { openBrowser, Seat } from "./seat.ts";
import { TestServer } from "./server.ts";

let server: TestServer;
let browser: Browser;
beforeAll(async () => {
  server = new TestServer();
  await server.start();
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  await server?.end();
});

/** Returns a JPEG of 16 x 12 pixels whose camera was turned: Exif's orientation 6 (tag 0x0112), so 12 x 16 to see. */
function turned(): Buffer {
  const tiff = exif();
  tiff.writeUInt16BE(0x0112, 10);
  tiff.writeUInt16BE(3, 12);
  tiff.writeUInt32BE(1, 14);
  tiff.writeUInt32BE(0x00060000, 18);
  return withSegments(PROGRESSIVE, segment(0xe1, Buffer.concat([Buffer.from("Exif\0\0"), tiff])));
}

it("[DEF-14] a picture is sent after the report, stands upright on the aircraft's page, and is removed for a reason", async () => {
  const seat = await Seat.open(browser, server.url, "wenna");
  const { page } = seat;
  await seat.turnTo("/aircraft/QX-PEN");
  for (const key of ["Write up a defect", "Number 2", "Oil leak", "Does not block the start"])
    await seat.press(key);
  const defect = page.getByRole("listitem", { name: "Oil leak" });
  const add = defect.getByLabel("Add a picture to: Oil leak");
  const file = (name: string, buffer: Buffer) => ({ name, mimeType: "image/jpeg", buffer });
  await add.setInputFiles(file("leak.jpg", turned()));
  await defect.getByText("The picture is added.").waitFor();
  await defect.getByText("1 picture", { exact: true }).click();
  const picture = defect.getByRole("img", { name: "Picture 1 of: Oil leak" });
  await picture.waitFor();
  const size = await picture.evaluate(async (img: HTMLImageElement) => {
    await img.decode();
    return [img.naturalWidth, img.naturalHeight];
  });
  expect(size).toEqual([12, 16]);
  await add.setInputFiles(file("page.jpg", Buffer.from("<script>alert(1)</script>")));
  await defect.getByText("This file is no picture that this device can read.").waitFor();

  await defect.getByRole("button", { name: "Remove" }).click();
  await page.getByLabel(/^Why is the picture removed/).fill("A face is in it");
  await defect.getByRole("button", { name: "Remove" }).click();
  await defect.getByText(/^Removed by Wenna .*: A face is in it$/).waitFor();
  expect(await picture.count()).toBe(0);
  expect(seat.complaints).toEqual([]);
  await seat.context.close();
});

it("[DEF-9] what the server keeps is what a browser shows: no pixel of a cleaned picture differs", async () => {
  const seat = await Seat.open(browser, server.url, "wenna");
  const pixels = (bytes: Uint8Array, type: string) =>
    seat.page.evaluate(
      async ([numbers, of]) => {
        const bitmap = await createImageBitmap(new Blob([Uint8Array.from(numbers)], { type: of }));
        const pen = new OffscreenCanvas(bitmap.width, bitmap.height).getContext("2d");
        pen?.drawImage(bitmap, 0, 0);
        return [bitmap.width, bitmap.height, ...(pen?.getImageData(0, 0, 16, 12).data ?? [])].join();
      },
      [[...bytes], type] as const,
    );
  const { cleanPicture } = await import("../../server/pictures/clean.ts");
  for (const sent of [PROGRESSIVE, LOSSY, TRANSPARENT]) {
    const clean = await cleanPicture(sent);
    if (!clean.ok) throw new Error(clean.fault);
    const before = await pixels(sent, clean.media);
    expect(before.split(",").length).toBe(2 + 4 * 16 * 12);
    expect(await pixels(clean.bytes, clean.media)).toBe(before);
  }
  await seat.context.close();
});

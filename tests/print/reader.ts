import { getDocument, OPS, type PDFPageProxy, VerbosityLevel } from "pdfjs-dist/legacy/build/pdf.mjs";

export interface ReadPdf {
  /** Each page's text, its pieces joined in order, white space folded. */
  pages: string[];
  /** The same without any white space, for texts that may be broken over lines. */
  solid: string;
  info: Record<string, unknown>;
}

const PLACES = new URL("../../node_modules/pdfjs-dist/", import.meta.url);

/** Reads a PDF with another library than the one that wrote it. */
export async function readPdf(bytes: Uint8Array): Promise<ReadPdf> {
  const task = getDocument({
    data: new Uint8Array(bytes),
    verbosity: VerbosityLevel.ERRORS,
    standardFontDataUrl: new URL("standard_fonts/", PLACES).pathname,
  });
  const document = await task.promise;
  const pages: string[] = [];
  for (let n = 1; n <= document.numPages; n++) {
    const page = await document.getPage(n);
    const { items } = await page.getTextContent();
    const text = items.map((i) => ("str" in i ? `${i.str}${i.hasEOL ? " " : ""}` : "")).join(" ");
    pages.push(text.replace(/\s+/g, " "));
  }
  const info = (await document.getMetadata()).info as Record<string, unknown>;
  await task.destroy();
  return { pages, solid: pages.join(" ").replace(/\s/g, ""), info };
}

/** Returns the text in the red of danger, without white space. */
export async function redIn(bytes: Uint8Array): Promise<string> {
  const task = getDocument({ data: new Uint8Array(bytes), verbosity: VerbosityLevel.ERRORS });
  const document = await task.promise;
  let red = "";
  for (let n = 1; n <= document.numPages; n++) red += await redOf(await document.getPage(n));
  await task.destroy();
  return red;
}

const RED = "#a3001b";

/** Returns the text of a page filled with red, by following the page's own drawing operations. */
async function redOf(page: PDFPageProxy): Promise<string> {
  const { fnArray, argsArray } = await page.getOperatorList();
  const kept: string[] = [];
  const before: string[] = [];
  let colour = "";
  fnArray.forEach((fn, i) => {
    const args = argsArray[i] as unknown[];
    if (fn === OPS.save) before.push(colour);
    if (fn === OPS.restore) colour = before.pop() ?? "";
    if (fn === OPS.setFillRGBColor) colour = String(args[0]);
    if (fn === OPS.showText && colour === RED)
      for (const glyph of args[0] as (number | { unicode: string })[])
        if (typeof glyph === "object" && glyph) kept.push(glyph.unicode);
  });
  return kept.join("").replace(/\s/g, "");
}

/** Returns text in the form of `solid`. */
export const solid = (text: string) => text.replace(/\s/g, "");

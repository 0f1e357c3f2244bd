import { setImmediate } from "node:timers/promises";
import PDFDocument from "pdfkit";
import { dayAndTime } from "../../shared/words/dates.ts";
import type { Language } from "../../shared/words/language.ts";
import { PROGRAM } from "../version.ts";
import { FACES, type Face, printable } from "./faces.ts";
import { INK, LINE, PAGE, THIN, type Tone, WIDTH } from "./look.ts";
import { printWords } from "./words.ts";

export interface SheetOptions {
  title: string;
  /** Text at the head of every page: the aircraft and session it belongs to. */
  about: string;
  /** Time of printing, milliseconds of the server's clock. The document has no other date. */
  now: number;
  /** Text at the foot of every page. */
  caution: string;
  language: Language;
  /** True for a paper of a rehearsal: every page says so above its head. */
  rehearsal?: boolean;
}

interface TextOptions {
  face?: Face;
  size?: number;
  tone?: Tone;
  align?: "left" | "right" | "center";
}

/** Height of the striped edge of a rehearsal's pages, points. */
const STRIPES = 18;

/** Yield to the event loop after this many rows, so that printing never delays a signal. */
const BREATH = 3;

/** A paged document with a cursor. The same content and `now` give the same bytes. */
export class Sheet {
  readonly doc: PDFKit.PDFDocument;
  readonly #options: SheetOptions;
  readonly #bytes: Buffer[] = [];
  #rows = 0;
  /** Vertical position of the next element, in points from the top of the page. */
  y: number = PAGE.top;

  constructor(options: SheetOptions) {
    this.#options = options;
    this.doc = new PDFDocument({
      size: "A4",
      margin: 0,
      bufferPages: true,
      autoFirstPage: false,
      // No default font: PDFKit's built-in fonts are not embedded.
      font: "",
      lang: options.language,
      displayTitle: true,
      pdfVersion: "1.7",
      info: {
        Title: printable(options.title),
        Creator: PROGRAM,
        Producer: PROGRAM,
        CreationDate: new Date(options.now),
      },
    });
    for (const [face, bytes] of Object.entries(FACES)) this.doc.registerFont(face, bytes);
    this.doc.on("data", (chunk: Buffer) => this.#bytes.push(chunk));
    this.page();
  }

  get language(): Language {
    return this.#options.language;
  }

  /** Begins a new page with its head. */
  page(): void {
    this.doc.addPage();
    const { title, about, rehearsal, language } = this.#options;
    if (rehearsal) this.#stripes(printWords(language).rehearsal);
    this.write(title, PAGE.left, 26, { face: "bold", size: 8 });
    this.write(about, PAGE.left + WIDTH / 2, 26, { size: 8, tone: "soft", align: "right" }, WIDTH / 2);
    this.rule(40);
    this.y = PAGE.top;
  }

  /** Draws a striped edge at the head of the page, with a word in it. */
  #stripes(word: string): void {
    const { doc } = this;
    doc.save().rect(0, 0, PAGE.width, STRIPES).clip();
    for (let x = -STRIPES; x < PAGE.width; x += 2 * STRIPES)
      doc
        .polygon([x, STRIPES], [x + STRIPES, 0], [x + 2 * STRIPES, 0], [x + STRIPES, STRIPES])
        .fill(INK.danger);
    doc.restore();
    const width = this.widthOf(word, { face: "bold", size: 10 }) + 20;
    doc.rect((PAGE.width - width) / 2, 0, width, STRIPES).fill(INK.paper);
    this.write(word, 0, 4, { face: "bold", size: 10, tone: "danger", align: "center" }, PAGE.width);
  }

  /** Begins a new page when fewer than `height` points are left. Returns true when it did. */
  need(height: number): boolean {
    if (this.y + height <= PAGE.bottom) return false;
    this.page();
    return true;
  }

  async breathe(): Promise<void> {
    this.#rows += 1;
    if (this.#rows % BREATH === 0) await setImmediate();
  }

  /** Writes text at a position, wrapped at `width` if given. Points. */
  write(text: string, x: number, y: number, options: TextOptions = {}, width?: number): void {
    const { face = "plain", size = 9, tone = "ink", align = "left" } = options;
    this.doc.font(face).fontSize(size).fillColor(INK[tone]);
    this.doc.text(printable(text), x, y, width === undefined ? { lineBreak: false } : { width, align });
  }

  heightOf(text: string, width: number, { face = "plain", size = 9 }: TextOptions = {}): number {
    return this.doc.font(face).fontSize(size).heightOfString(printable(text), { width });
  }

  widthOf(text: string, { face = "plain", size = 9 }: TextOptions = {}): number {
    return this.doc.font(face).fontSize(size).widthOfString(printable(text));
  }

  rule(y: number, tone: keyof typeof INK = "rule", weight: number = THIN): void {
    this.line(PAGE.left, y, PAGE.right, y, tone, weight);
  }

  line(
    x1: number,
    y1: number,
    x2: number,
    y2: number,
    tone: keyof typeof INK = "rule",
    weight: number = THIN,
  ): void {
    this.doc.lineWidth(weight).strokeColor(INK[tone]).moveTo(x1, y1).lineTo(x2, y2).stroke();
  }

  box(
    x: number,
    y: number,
    width: number,
    height: number,
    tone: keyof typeof INK = "ink",
    weight: number = THIN,
  ): void {
    this.doc.lineWidth(weight).strokeColor(INK[tone]).rect(x, y, width, height).stroke();
  }

  heading(text: string, tone: Tone = "ink", keep = 60): void {
    this.need(keep);
    this.y += 10;
    this.write(text, PAGE.left, this.y, { face: "bold", size: 11.5, tone });
    this.y += 17;
    this.rule(this.y, tone === "danger" ? "danger" : "ink", LINE);
    this.y += 6;
  }

  para(text: string, options: TextOptions = {}, indent = 0): void {
    const width = WIDTH - indent;
    const height = this.heightOf(text, width, options);
    this.need(height);
    this.write(text, PAGE.left + indent, this.y, options, width);
    this.y += height + 3;
  }

  /** Writes each item as a paragraph after a short dash. */
  list(items: readonly string[], options: TextOptions = {}): void {
    for (const item of items) {
      this.need(this.heightOf(item, WIDTH - 14, options));
      this.line(PAGE.left, this.y + 5.5, PAGE.left + 7, this.y + 5.5, "ink", LINE);
      this.para(item, options, 14);
    }
    this.y += 4;
  }

  /** Writes the foot of every page and returns the PDF's bytes. */
  finish(): Promise<Buffer> {
    const { caution, language, now } = this.#options;
    const words = printWords(language);
    const { count } = this.doc.bufferedPageRange();
    const printed = `${words.printed(dayAndTime(now, language))}. ${PROGRAM}`;
    for (let i = 0; i < count; i++) {
      this.doc.switchToPage(i);
      this.rule(788, "ink");
      this.write(caution, PAGE.left, 793, { size: 7.5 }, WIDTH - 80);
      this.write(words.page(i + 1, count), PAGE.right - 70, 793, { size: 10, align: "right" }, 70);
      this.write(printed, PAGE.left, 818, { size: 7, tone: "soft" });
    }
    return new Promise((done) => {
      this.doc.on("end", () => done(Buffer.concat(this.#bytes)));
      this.doc.end();
    });
  }
}

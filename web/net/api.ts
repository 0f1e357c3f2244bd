import type { Confirmed } from "../../shared/asks/ask.ts";
import type { Figure } from "../../shared/figures/figure.ts";
import type { StandNeighbour } from "../../shared/protocol/neighbours.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import type { Refusal } from "../../shared/protocol/refusal.ts";
import type { Purpose, Stage } from "../../shared/protocol/stages.ts";
import type { StandingItem } from "../../shared/protocol/standing.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import type { Language } from "../../shared/words/language.ts";
import { type Piece, wordsOf } from "../../shared/words/piece.ts";
import { wordsNow } from "../words/words.ts";
import { byName } from "./byName.ts";
import { keptKey } from "./deviceKey.ts";
import type { Device, SignedIn } from "./keep.ts";
import { eachPage } from "./pages.ts";
import { kindOf, type Problem, problemWords } from "./problemWords.ts";
import { proofFor } from "./proof.ts";

/** A request that failed: the server's problem in words (RFC 9457). `status` is 0 when the server did not answer. */
export class ApiError extends Error {
  readonly status: number;
  /** Each fault found in the request body, with its path. */
  readonly faults: readonly ApiFault[];
  /** The message as pieces to display; a piece left in English is marked `asWritten`. */
  readonly pieces: readonly Piece[];
  /** The kind of the server's problem; empty when the server named none. */
  readonly problem: string;
  constructor(
    status: number,
    message: string | readonly Piece[],
    faults: readonly ApiFault[] = [],
    problem = "",
  ) {
    const pieces = typeof message === "string" ? [{ words: message, asWritten: false }] : message;
    super(wordsOf(pieces));
    this.status = status;
    this.pieces = pieces;
    this.faults = faults;
    this.problem = problem;
  }
}

export interface ApiFault {
  path: string;
  message: string;
}

export interface StandingRow {
  aircraft: string;
  name: string;
  items: StandingItem[];
  /** The aircraft's engine numbers; empty before anything was recorded at it. */
  engines: number[];
  /** Ids of the aircraft's sessions that are not over. */
  open: string[];
}

export type Reported = { status: "accepted"; seq: number } | { status: "refused"; refusal: Refusal };

export interface SessionRow {
  id: string;
  code: string;
  aircraft: string;
  typeName: string;
  place: string;
  stage: Stage;
  createdAt: number | string;
  /** Server milliseconds; null while it is open. */
  closedAt: number | null;
  headSeq: number;
  /** Number of open alerts and stops. */
  needs: number;
  /** Posts that are offered to this person. */
  offered: Post[];
}

export interface PersonRow {
  id: string;
  name: string;
  mayHold: Post[];
}

export interface DemoSignIn {
  handle: string;
  pin: string;
  name: string;
  mayHold: Post[];
}

/** The noise doses this person may see, calculated at server time `at`, milliseconds. */
export interface NoiseDay {
  at: number;
  figures: Figure[];
}

export interface PlanRequest {
  commandId: string;
  aircraft: string;
  typeVersion: number;
  place: string;
  purpose: Purpose;
  order: number[];
  orderReason?: string;
  headingDeg?: number;
  elevationFt?: number;
  neighbours?: StandNeighbour[];
  /** Labels of the register. */
  equipment?: string[];
  powerSource: "groundPower" | "batteries";
  crew: Record<Post, string | null>;
}

const SLOWEST_MS = 10_000;
/** For a file: half a megabyte over a weak network. */
const SLOWEST_FILE_MS = 60_000;

/** Sends every HTTP request of the panels to the server. */
export class Api {
  token: string | null = null;
  /** This device's key; read from storage once. */
  #key: Promise<CryptoKeyPair | null> | null = null;
  /** The last nonce the server sent for proofs. */
  #nonce: string | null = null;
  /** Called when the server no longer accepts the sign-in token. */
  onSignedOut: () => void = () => {};

  signIn = async (handle: string, pin: string, from: Device) => {
    this.token = null;
    // The server identifies an enrolled device by its key and ignores any device named in the request.
    const device = (await this.#keyOfDevice()) ? undefined : from;
    return this.json<SignedIn>("POST", "/api/sign-in", {
      handle,
      pin,
      device,
    });
  };
  signOut = () => this.send("POST", "/api/sign-out");
  demo = () => this.json<{ demo: boolean; crews: boolean; signIns: DemoSignIn[] }>("GET", "/api/demo");
  people = async () => byName(await this.pages<PersonRow>("/api/people"));
  type = (id: string, version: number) => this.json<AircraftType>("GET", `/api/types/${id}/${version}`);
  sessions = () => this.json<SessionRow[]>("GET", "/api/sessions");
  session = (id: string) =>
    this.json<{ head: number; state: SessionState; serverNow: number }>("GET", `/api/sessions/${id}`);
  /** Fetches the open items of every aircraft's record. */
  standing = () => this.pages<StandingRow>("/api/standing");
  noise = (id: string) => this.json<NoiseDay>("GET", `/api/sessions/${id}/noise`);
  planSession = (plan: PlanRequest) => this.json<{ id: string; code: string }>("POST", "/api/sessions", plan);
  join = (code: string) =>
    this.json<{ id: string; aircraft: string }>("GET", `/api/join/${encodeURIComponent(code)}`);

  /** Checks the person's PIN. Returns a permit and the command id it is valid for, in this session only. */
  async confirm(pin: string, session: string): Promise<Confirmed> {
    const command = crypto.randomUUID();
    const { permit } = await this.json<{ permit: string }>("POST", "/api/confirm", { pin, session, command });
    return { command, permit };
  }

  enrolled = async () => (await this.#keyOfDevice()) !== null;

  /** Enrols this device: registers the new key `pair` by an enrolment code. */
  async enrol(code: string, pair: CryptoKeyPair): Promise<{ id: string; name: string }> {
    const before = this.#keyOfDevice();
    this.#key = Promise.resolve(pair);
    this.token = null;
    try {
      return await this.json("POST", "/api/devices", { code });
    } catch (error) {
      this.#key = before;
      throw error;
    }
  }

  /** Returns the token and proof for opening a socket. Each opening needs a new proof. */
  async handshake(token: string): Promise<{ token: string; proof?: string }> {
    const proof = await this.#proof("GET", "/live", token, true);
    return proof === null ? { token } : { token, proof };
  }

  async json<T>(method: string, path: string, body?: unknown): Promise<T> {
    return (await this.send(method, path, body)).json() as Promise<T>;
  }

  /** Returns a whole list that the server sends a page at a time. */
  pages = async <T>(path: string) => (await this.eachPage<T[]>(path)).flat();
  eachPage = <Page>(path: string) => eachPage<Page>((next) => this.send("GET", next), path);

  /** Sends one request with the sign-in token: a file as it is, anything else as JSON. Rejects with ApiError on any status other than success. */
  async send(
    method: string,
    path: string,
    body?: unknown,
    more: Record<string, string> = {},
  ): Promise<Response> {
    const first = await this.#try(method, path, body, more);
    const response = (await this.#unproven(first)) ? await this.#try(method, path, body, more) : first;
    if (response.ok) return response;
    if (response.status === 401 && this.token) this.onSignedOut();
    throw await refusal(response);
  }

  async #try(method: string, path: string, body: unknown, more: Record<string, string>): Promise<Response> {
    const headers: Record<string, string> = { "accept-language": wordsNow().say.language, ...more };
    const proof = await this.#proof(method, path, this.token);
    if (this.token) headers.authorization = `${proof === null ? "Bearer" : "DPoP"} ${this.token}`;
    if (proof !== null) headers.dpop = proof;
    if (body instanceof Blob) return this.#fetch(method, path, headers, body, SLOWEST_FILE_MS);
    if (body !== undefined) headers["content-type"] = "application/json";
    return this.#fetch(method, path, headers, body === undefined ? null : JSON.stringify(body));
  }

  async #fetch(
    method: string,
    path: string,
    headers: Record<string, string>,
    body: string | Blob | null,
    slowestMs = SLOWEST_MS,
  ): Promise<Response> {
    try {
      const signal = AbortSignal.timeout(slowestMs);
      const response = await fetch(path, { method, headers, body, signal });
      this.#nonce = response.headers.get("dpop-nonce") ?? this.#nonce;
      return response;
    } catch {
      throw new ApiError(0, wordsNow().text.net.noServer);
    }
  }

  /** True when the server rejected the proof and sent a new nonce: the request must be repeated with it. */
  async #unproven(response: Response): Promise<boolean> {
    if (response.status !== 401 || !(await this.#keyOfDevice())) return false;
    const problem = (await response.clone().json()) as { type?: string };
    return problem.type === "urn:chockside:problem:proofNeeded";
  }

  /**
   * Returns a DPoP proof, or null on a device that is not enrolled.
   * @param fresh fetch a new nonce first: a socket, unlike an HTTP request, cannot be asked to repeat with another
   * one
   */
  async #proof(method: string, path: string, token: string | null, fresh = false): Promise<string | null> {
    const key = await this.#keyOfDevice();
    if (!key) return null;
    if (fresh || this.#nonce === null) {
      const answer = await this.#fetch("GET", "/api/nonce", {}, null);
      if (!answer.ok) throw await refusal(answer);
      this.#nonce = ((await answer.json()) as { nonce: string }).nonce;
    }
    return proofFor(key, { method, path, nonce: this.#nonce, token });
  }

  #keyOfDevice(): Promise<CryptoKeyPair | null> {
    this.#key ??= keptKey();
    return this.#key;
  }
}

async function refusal(response: Response): Promise<ApiError> {
  const { status } = response;
  const words = wordsNow();
  try {
    const problem = (await response.json()) as Problem & { errors?: ApiFault[] };
    const titles = await titlesIn(words.say.language);
    const said = problemWords(problem, status, words, titles);
    return new ApiError(status, said, problem.errors, kindOf(problem.type));
  } catch {
    return new ApiError(status, words.text.net.status(status));
  }
}

async function titlesIn(language: Language): Promise<Readonly<Record<string, string>>> {
  try {
    return (await import("../words/problemTitles.ts")).problemTitles(language);
  } catch {
    return {};
  }
}

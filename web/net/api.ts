import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import type { Stage } from "../../shared/protocol/stages.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import type { Device, Me } from "./keep.ts";

/** The server's no, in its own words (RFC 9457). `status` is 0 when nothing answered. */
export class ApiError extends Error {
  readonly status: number;
  /** What is wrong where, for what was sent. */
  readonly faults: readonly ApiFault[];
  constructor(status: number, message: string, faults: readonly ApiFault[] = []) {
    super(message);
    this.status = status;
    this.faults = faults;
  }
}

export interface ApiFault {
  path: string;
  message: string;
}

export interface AircraftRow {
  id: string;
  name: string;
  typeId: string;
  typeVersion: number;
  typeName: string;
}

export interface SessionRow {
  id: string;
  code: string;
  aircraft: string;
  typeName: string;
  place: string;
  stage: Stage;
  createdAt: number | string;
  headSeq: number;
  /** Open alerts and stops. */
  needs: number;
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

export interface PlanRequest {
  commandId: string;
  aircraft: string;
  typeVersion: number;
  place: string;
  order: number[];
  powerSource: "groundPower" | "batteries";
  crew: Record<Post, string | null>;
}

const SLOWEST_MS = 10_000;

/** Every request of the panels to the server's HTTP side. */
export class Api {
  token: string | null = null;
  /** Called when the server no longer knows the sign-in. */
  onSignedOut: () => void = () => {};

  signIn = (handle: string, pin: string, from: Device) =>
    this.json<{ token: string; expiresAt: number; person: Me }>("POST", "/api/sign-in", {
      handle,
      pin,
      device: from,
    });
  signOut = () => this.send("POST", "/api/sign-out");
  demo = () => this.json<{ demo: boolean; signIns: DemoSignIn[] }>("GET", "/api/demo");
  people = () => this.json<PersonRow[]>("GET", "/api/people");
  aircraft = () => this.json<AircraftRow[]>("GET", "/api/aircraft");
  type = (id: string, version: number) => this.json<AircraftType>("GET", `/api/types/${id}/${version}`);
  sessions = () => this.json<SessionRow[]>("GET", "/api/sessions");
  session = (id: string) =>
    this.json<{ head: number; state: SessionState; serverNow: number }>("GET", `/api/sessions/${id}`);
  planSession = (plan: PlanRequest) => this.json<{ id: string; code: string }>("POST", "/api/sessions", plan);
  join = (code: string) =>
    this.json<{ id: string; aircraft: string }>("GET", `/api/join/${encodeURIComponent(code)}`);

  /** The whole record from after `since`, page by page. */
  async events(id: string, since: number): Promise<SessionEvent[]> {
    const all: SessionEvent[] = [];
    for (;;) {
      const after = all.at(-1)?.seq ?? since;
      const page = await this.json<{ head: number; events: SessionEvent[] }>(
        "GET",
        `/api/sessions/${id}/events?since=${after}&limit=500`,
      );
      all.push(...page.events);
      if (page.events.length === 0 || (all.at(-1)?.seq ?? 0) >= page.head) return all;
    }
  }

  /** The record as a file. */
  async evidence(id: string, as: "ndjson" | "json" | "csv"): Promise<Blob> {
    return (await this.send("GET", `/api/sessions/${id}/evidence?as=${as}`)).blob();
  }

  /** A sheet to print. */
  async pdf(path: string): Promise<Blob> {
    return (await this.send("GET", path)).blob();
  }

  async json<T>(method: string, path: string, body?: unknown): Promise<T> {
    return (await this.send(method, path, body)).json() as Promise<T>;
  }

  /** One request with the sign-in. Rejects with ApiError unless the server says that it was done. */
  async send(
    method: string,
    path: string,
    body?: unknown,
    more: Record<string, string> = {},
  ): Promise<Response> {
    const headers: Record<string, string> = { ...more };
    if (this.token) headers.authorization = `Bearer ${this.token}`;
    if (body !== undefined) headers["content-type"] = "application/json";
    let response: Response;
    try {
      response = await fetch(path, {
        method,
        headers,
        body: body === undefined ? null : JSON.stringify(body),
        signal: AbortSignal.timeout(SLOWEST_MS),
      });
    } catch {
      throw new ApiError(0, "The server does not answer. Check this device's network.");
    }
    if (response.ok) return response;
    if (response.status === 401 && this.token) this.onSignedOut();
    throw await refusal(response);
  }
}

async function refusal(response: Response): Promise<ApiError> {
  const said = `The server said ${response.status}.`;
  try {
    const problem = (await response.json()) as { title?: string; detail?: string; errors?: ApiFault[] };
    return new ApiError(response.status, problem.detail ?? problem.title ?? said, problem.errors);
  } catch {
    return new ApiError(response.status, said);
  }
}

import type { Server, Socket } from "socket.io";
import type { Command } from "../../shared/protocol/commands.ts";
import type { ClientToServer, ServerToClient, Trouble, WireError } from "../../shared/protocol/wire.ts";
import type { Identity } from "../auth/identity.ts";
import type { Bucket } from "./bucket.ts";

/** Where sockets are opened. */
export const LIVE_PATH = "/live";

/** What a signed-in socket carries. */
export interface Panel {
  identity: Identity;
  bucket: Bucket;
  /** Whether a permit says that this person entered their PIN for this command. */
  permitted(command: Command, permit: string | undefined): boolean;
  /** Server time of the last sign of life. */
  heard: number;
}

export type Io = Server<ClientToServer, ServerToClient, Record<never, never>, Panel>;
export type PanelSocket = Socket<ClientToServer, ServerToClient, Record<never, never>, Panel>;

export const sessionRoom = (session: string) => `session:${session}`;
export const deviceRoom = (device: string) => `device:${device}`;
export const personRoom = (person: string) => `person:${person}`;
export const signInRoom = (signIn: string) => `signIn:${signIn}`;

export function trouble(error: WireError, message: string): Trouble {
  return { status: "error", error, message };
}

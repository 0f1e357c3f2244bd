import type { Server, Socket } from "socket.io";
import type { Command } from "../../shared/protocol/commands.ts";
import type { ClientToServer, ServerToClient, Trouble, WireError } from "../../shared/protocol/wire.ts";
import type { Identity } from "../auth/identity.ts";
import type { Bucket } from "./bucket.ts";

/** Path of the Socket.IO endpoint. */
export const LIVE_PATH = "/live";

/** Data of a signed-in socket. */
export interface Panel {
  identity: Identity;
  bucket: Bucket;
  /** Returns true when the permit shows that this person entered their PIN for this command. */
  permitted(command: Command, permit: string | undefined): boolean;
  /** Server time of the last packet, in milliseconds. */
  heard: number;
}

export type Io = Server<ClientToServer, ServerToClient, Record<never, never>, Panel>;
export type PanelSocket = Socket<ClientToServer, ServerToClient, Record<never, never>, Panel>;

const SESSION = "session:";
export const sessionRoom = (session: string) => `${SESSION}${session}`;
/** Returns the session whose room this is; null for any other room. */
export const sessionIn = (room: string) => (room.startsWith(SESSION) ? room.slice(SESSION.length) : null);
export const deviceRoom = (device: string) => `device:${device}`;
export const personRoom = (person: string) => `person:${person}`;
export const signInRoom = (signIn: string) => `signIn:${signIn}`;

export function trouble(error: WireError, message: string): Trouble {
  return { status: "error", error, message };
}

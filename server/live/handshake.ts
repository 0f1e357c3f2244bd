import { PROTOCOL } from "../../shared/protocol/version.ts";
import { handshakeSchema, type WireError } from "../../shared/protocol/wire.ts";
import type { Refusals } from "../audit.ts";
import type { Proofs } from "../auth/proofs.ts";
import type { SignIns } from "../auth/sign-ins.ts";
import type { Clock } from "../clock.ts";
import { peerOf } from "../peer.ts";
import { Bucket } from "./bucket.ts";
import { LIVE_PATH, type Panel, type PanelSocket } from "./io.ts";
import { LIMITS } from "./limits.ts";
import type { Turnstile } from "./turnstile.ts";

/**
 * Returns the middleware that admits a socket with the right protocol version, a valid sign-in and, on an enrolled
 * device, a proof. Otherwise it refuses with the reason and closes the socket.
 */
export function handshake(
  signIns: SignIns,
  proofs: Proofs,
  clock: Clock,
  refusals: Refusals,
  arrivals: Turnstile,
) {
  return async (socket: PanelSocket, done: (error?: Error) => void): Promise<void> => {
    const next = (error?: Error & { data?: { error: WireError } }) => {
      const address = peerOf(socket.request);
      done(error);
      if (!error) return;
      refusals.refused(error.data?.error ?? "handshake", { address, path: LIVE_PATH });
      // Socket.IO sends the reason in the next tick. Close after it.
      setImmediate(() => socket.conn.close());
    };
    try {
      const said = handshakeSchema.safeParse(socket.handshake.auth);
      if (!said.success)
        return next(
          refusal("malformed", "the handshake must be {token, proto} and from an enrolled device {proof}"),
        );
      if (said.data.proto !== PROTOCOL) {
        const message = `this server speaks protocol ${PROTOCOL}, the panel ${said.data.proto}: load the panel anew`;
        return next(refusal("protocolMismatch", message));
      }
      await arrivals.enter();
      const identity = await signIns.who(said.data.token);
      if (!identity) return next(refusal("signInNeeded", "sign in first"));
      if (identity.thumbprint !== null && !(await proven(socket, said.data, identity.thumbprint)))
        return next(refusal("proofNeeded", "this device's key must prove itself, with a fresh nonce"));
      const now = clock.now();
      const bucket = new Bucket(LIMITS.burst, LIMITS.perSecond, now);
      const permitted: Panel["permitted"] = ({ id: command, session }, permit) =>
        permit !== undefined && signIns.isPermitted(identity, { session, command }, permit);
      socket.data = { identity, bucket, permitted, heard: now };
      next();
    } catch {
      next(refusal("notAvailable", "sign-ins cannot be looked up now"));
    }
  };

  async function proven(
    socket: PanelSocket,
    { token, proof }: { token: string; proof?: string | undefined },
    thumbprint: string,
  ): Promise<boolean> {
    if (proof === undefined) return false;
    const { host } = socket.handshake.headers;
    const read = await proofs.read(proof, { method: "GET", path: LIVE_PATH, host, token });
    return read.is === "proven" && read.thumbprint === thumbprint;
  }
}

function refusal(error: WireError, message: string) {
  return Object.assign(new Error(message), { data: { error, message } });
}

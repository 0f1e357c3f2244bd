import { offer } from "../../../shared/asks/ask.ts";
import { leavesOut } from "../../../shared/leaves/out.ts";
import type { SignalKind } from "../../../shared/protocol/signals.ts";
import { permissionFor } from "../../../shared/session/permissions.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import type { AnswerKey } from "../../ui/askView.ts";
import { answerKey } from "./askViews.ts";
import type { Panel } from "./model.ts";

/** Returns what ground power can report or request without being asked, leaving out reports of the present state. */
export function serviceOptions({ state, words }: Panel): AnswerKey[] {
  const { say, text } = words;
  const on = state.groundPower.is === "on";
  const chocked = state.chocks?.in === true;
  const leave = (kind: keyof SessionState["authorities"]) => state.authorities[kind]?.epoch === state.epoch;
  const kinds: [SignalKind, boolean][] = [
    ["chocksIn", !chocked],
    ["clearOfAircraft", leavesOut(state).length > 0],
    ["removeChocks", chocked && !leave("removeChocks")],
    ["chocksOut", chocked && leave("removeChocks")],
    ["connectPower", !on && !leave("connectPower")],
    ["powerConnected", on || leave("connectPower")],
    ["disconnectPower", on && !leave("disconnectPower")],
    ["powerDisconnected", on && leave("disconnectPower")],
  ];
  const unit = state.type.groundPower.steadyMin.unit;
  return kinds
    .filter(([kind, now]) => now && permissionFor({ type: "send", kind }).stages.includes(state.stage))
    .map(([kind]) => {
      const need = kind === "powerConnected" ? ({ is: "figure", field: "volts", unit } as const) : null;
      const word =
        kind === "powerConnected" && on
          ? text.ground.volts
          : kind === "removeChocks"
            ? text.ground.chocks
            : kind === "connectPower"
              ? text.ground.connect
              : kind === "disconnectPower"
                ? text.ground.disconnect
                : say.signal(kind, null);
      return answerKey(state, offer("plain", { type: "send", kind, channel: "panel" }, need), word, kind);
    });
}

import type { Action } from "../../../shared/protocol/commands.ts";
import { type Foreseen, foresee } from "../../../shared/session/foresee.ts";
import type { Panel } from "./model.ts";

/** Returns what an action of this panel's person would set off, one sentence each. */
export function foreseenWords(
  panel: Pick<Panel, "state" | "post" | "me" | "now" | "words">,
  action: Action,
): string[] {
  const { state, post, me, now, words } = panel;
  const device = (post && state.posts[post]?.device) ?? "";
  const person = { id: me.id, name: me.name, device, mayHold: me.mayHold };
  const found = foresee(state, action, person, now);
  return [...new Set(found.map((f) => sentence(f, panel)))];

  function sentence(f: Foreseen, { state: { type } }: Pick<Panel, "state">): string {
    const { say, text } = words;
    const says = text.entry.follows;
    switch (f.is) {
      case "alert":
        return says.alert(say.alert(f.kind, f.engine), f.to.map((p) => say.post(p).toLowerCase()).join(", "));
      case "drill":
        return says.drill(type.drills.find((d) => d.id === f.drill)?.title ?? f.drill);
      case "clearanceVoid":
        return says.clearance(f.engine);
      case "lowers":
        return says.lowers;
    }
  }
}

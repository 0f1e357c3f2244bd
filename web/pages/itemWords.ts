import { isDeferred, startsLeft } from "../../shared/defects/barring.ts";
import type { Item } from "../../shared/protocol/standing.ts";
import { enginesOf, placesOf } from "../../shared/stops/fireSeats.ts";
import { deferralWords } from "../../shared/words/deferral.ts";
import type { Language } from "../../shared/words/language.ts";
import { ago } from "../ui/numbers.ts";
import type { Words } from "../words/catalogue.ts";
import { laterWords } from "../words/later.ts";

/** Returns what stands at an aircraft, who reported it and how long ago. */
export function itemWords(item: Item, { say, text }: Words): string {
  const { atAircraft: says } = laterWords(say.language);
  const by = (who: { name: string; at: number }) =>
    `${say.person(who.name)}, ${ago(Date.now() - who.at, text)}`;
  switch (item.is) {
    case "hold":
      return `${says.keys.hold}${item.note ? `: ${item.note}` : ""}. ${by(item.by)}`;
    case "cut":
      return `${say.signal(item.engine === null ? "cutAll" : "cut", item.engine)}. ${by(item.by)}`;
    case "fire": {
      const engines = enginesOf(item);
      const at = engines.length === 0 ? text.ramp.fire : text.ramp.fireAt(say.both(engines.map(String)));
      return `${[at, ...placesOf(item).map((place) => say.firePlace(place).toLowerCase())].join(", ")}. ${by(item.by)}`;
    }
    case "hands":
      return `${say.signal("handlePropeller", item.engine)}. ${by(item.by)}`;
    case "leave":
      return `${says.leave}: ${say.signal(item.service, null)}. ${by(item.by)}`;
    case "turning":
      return says.turning(item.engine);
    case "unseen":
      return says.unseen(item.engine);
    case "drill":
      return says.drill(item.drill);
    case "defect":
      return `${defectWords(item, say.language)}: ${item.words}. ${by(item.by)}`;
  }
}

function defectWords(item: Item & { is: "defect" }, language: Language): string {
  const { atAircraft: says } = laterWords(language);
  if (!item.barsStart) return says.defect;
  if (!item.deferred || !isDeferred(item, Date.now())) return says.bars;
  const left = startsLeft(item.deferred, item.startedSince);
  return says.deferred(deferralWords(item.deferred.until ?? null, left, language));
}

import { ofOneEngine } from "../card/places.ts";
import type { CardItem } from "./card.ts";
import type { Fault } from "./fault.ts";
import { faultText } from "./faultText.ts";
import type { AircraftType, Gauge } from "./schema.ts";

/** Reports faults of the card that the schema cannot express. */
export function cardChecks(type: AircraftType, fault: Fault): void {
  const card = type.card ?? [];
  if (new Set(card.map((i) => i.id)).size !== card.length) fault("card", "two items have the same id");
  card.forEach((item, i) => {
    itemChecks(type, item, `card.${i}`, fault);
  });
  const stands = card.some((i) => i.clearance && (i.moment === "beforeStart" || i.moment === "beforeEngine"));
  const listed = type.conditions.includes("cardAnswered");
  if (stands && !listed) fault("conditions", "a clearance stands on the card: list cardAnswered");
  if (listed && !stands)
    fault("conditions", "cardAnswered needs an item of the card on which a clearance stands");
}

function itemChecks(type: AircraftType, item: CardItem, path: string, fault: Fault): void {
  const { kind, moment, engines, clearance, post, when } = item;
  const each = ofOneEngine(moment);
  if (engines && !each) fault(`${path}.engines`, "this moment is of the whole aircraft");
  if (engines?.some((n) => n > type.engines.length)) fault(`${path}.engines`, "no such engine");
  if (when && moment !== "beforeEngine")
    fault(`${path}.when`, "only what is done before an engine has a case");
  if (when === "hot" && !type.prime?.hot)
    fault(`${path}.when`, "the type does not say how long an engine is hot");
  if (clearance) {
    if (moment !== "beforeStart" && moment !== "beforeEngine" && moment !== "beforeRelease")
      fault(`${path}.clearance`, "a clearance stands only on what is answered before it");
    if (post !== "cockpit") fault(`${path}.post`, "a clearance stands on the cockpit's items alone");
    if (kind.is === "target")
      fault(`${path}.kind`, "a clearance cannot stand on a target that may be unknown");
  }
  if (kind.is === "alive") {
    if (moment !== "caught") fault(`${path}.kind`, "an instrument comes alive as its engine catches");
    if (kind.gauge !== undefined && !type.gauges.some((g) => g.id === kind.gauge))
      fault(`${path}.kind.gauge`, `no gauge of the id ${kind.gauge}`);
    return;
  }
  if (kind.is === "done") return;
  const gauge = type.gauges.find((g) => g.id === kind.gauge);
  if (gauge) figureChecks(kind, gauge, each, `${path}.kind`, fault);
  else fault(`${path}.kind.gauge`, `no gauge of the id ${kind.gauge}`);
}

type FigureKind = Extract<CardItem["kind"], { gauge: string }>;

function figureChecks(kind: FigureKind, gauge: Gauge, each: boolean, path: string, fault: Fault): void {
  if (gauge.id === "oilPressure") fault(`${path}.gauge`, "oil pressure is asked for by the oil's own times");
  if (gauge.perEngine && !each) fault(`${path}.gauge`, "each engine has its own: name a moment of an engine");
  if (kind.is === "target") {
    if (kind.within.unit !== gauge.unit) fault(`${path}.within.unit`, `must be ${gauge.unit}`);
    return;
  }
  const min = kind.min ?? gauge.min;
  const max = kind.max ?? gauge.max;
  if (min === undefined && max === undefined) fault(path, "a range needs a bound");
  if (min !== undefined && max !== undefined && min > max) fault(path, "the least is above the most");
  // A figure off the scale cannot be sent, so nobody could answer the item.
  const { from, to } = gauge.scale;
  for (const bound of ["min", "max"] as const) {
    const value = kind[bound];
    if (value !== undefined && (value < from || value > to))
      fault(`${path}.${bound}`, faultText("offScale", value, from, to));
  }
}

import { expect, it } from "vitest";
import { aircraftTypeJsonSchema } from "../../shared/types/jsonSchema.ts";
import { say as english } from "../../shared/words/en.ts";
import { say as spanish } from "../../shared/words/es.ts";
import { unitWord } from "../../shared/words/units.ts";
import { typeNames } from "../../web/pages/types/names.ts";
import { rowsOf } from "../../web/pages/types/rows.ts";
import { parts as englishParts } from "../../web/words/en/parts.ts";
import { types as englishTypes } from "../../web/words/en/types.ts";
import { parts } from "../../web/words/es/parts.ts";
import { types } from "../../web/words/es/types.ts";

const es = typeNames(types, parts, spanish);
const en = typeNames(englishTypes, englishParts, english);

/** Returns every name of a part, and every value of a closed list, in the published schema. */
function named(node: unknown, names = new Set<string>(), values = new Set<string>()) {
  if (typeof node !== "object" || node === null) return { names, values };
  const { properties, enum: few, const: fixed } = node as Record<string, unknown>;
  if (!Array.isArray(node)) {
    for (const name of Object.keys(properties ?? {})) names.add(name);
    for (const value of [...((few as unknown[]) ?? []), fixed])
      if (value !== undefined) values.add(String(value));
  }
  for (const inner of Object.values(node)) named(inner, names, values);
  return { names, values };
}

const { names, values } = named(aircraftTypeJsonSchema());

it("[LNG-9] every part of an aircraft type, and every value that is one of a few, has its Spanish name", () => {
  expect(names.size).toBeGreaterThan(150);
  expect(values.size).toBeGreaterThan(70);
  expect([...names].filter((n) => !Object.hasOwn(parts, n))).toEqual([]);
  const units = [...values].filter(
    (v) => unitWord(v) !== v || /^([a-zA-Z]|[a-z]*[A-Z]?[a-z]?|m\/s|km\/h|mm2\/s|dBA|inHg)$/.test(v),
  );
  const told = [...values].filter((v) => !units.includes(v));
  expect(told.filter((v) => es.value(v) === en.value(v) && v !== "plan" && v !== "brief")).toEqual([]);
});

it("[LNG-9] a path, a fault's path and a row are said in the language, what an author wrote as it is", () => {
  expect(es.path("oil.normal.within")).toBe("Aceite, normal, en");
  expect(en.path("oil.normal.within")).toBe("Oil, normal, within");
  expect(es.faultPath("engines.0.x")).toBe("Motores, 1, detrás de la nariz (m)");
  expect(es.path("")).toBe("Todo el tipo");
  expect([
    es.value(null),
    es.value(true),
    es.value("count"),
    es.value("degC"),
    es.value("alert:guardMissing"),
  ]).toEqual(["ninguno", "sí", "número", "°C", "Alerta: falta el guardia"]);
  expect(en.value("alert:guardMissing")).toBe("Alert: guard missing");
  expect(en.value("Oil pressure")).toBe("Oil pressure");
  expect(es.value("Nose into the wind")).toBe("Nose into the wind");
  const [row] = rowsOf({ method: "hand", perEngine: true }, "Conteo", "bladeCount", es);
  expect(row?.value).toBe("método: A mano, uno por cada motor: sí");
});

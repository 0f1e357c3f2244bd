import type { TypeFault } from "./fault.ts";
import { faultText } from "./faultText.ts";
import { type Basis, basisSchema } from "./limit.ts";
import type { Members } from "./members.ts";

/** A figure's place and the basis it rests on. */
interface Based {
  path: string;
  basis: Basis;
}

/** Returns every source in a type with the path of what it is about. The time is linear in the size of the type. */
function basesOf(type: unknown): Based[] {
  const found: Based[] = [];
  const visit = (value: unknown, path: string): void => {
    if (typeof value !== "object" || value === null) return;
    const basis = basisSchema.safeParse((value as Members).basis);
    if (basis.success && typeof (value as Members).text === "string")
      found.push({ path: path.replace(/\.source$/, ""), basis: basis.data });
    for (const [key, inner] of Object.entries(value)) visit(inner, path === "" ? key : `${path}.${key}`);
  };
  visit(type, "");
  return found;
}

/** Returns how many figures rest on each basis. */
export function countByBasis(type: unknown): Record<Basis, number> {
  const count: Record<Basis, number> = {
    published: 0,
    commonPractice: 0,
    fromMemory: 0,
    anotherType: 0,
    invented: 0,
  };
  for (const { basis } of basesOf(type)) count[basis] += 1;
  return count;
}

/** Returns a fault for every figure that no real aircraft may be started on: invented, or about another type. */
export function unfitFigures(type: unknown): TypeFault[] {
  return basesOf(type).flatMap(({ path, basis }) => {
    switch (basis) {
      case "invented":
        return [{ path, message: faultText("inventedFigure") }];
      case "anotherType":
        return [{ path, message: faultText("anotherTypesFigure") }];
      case "published":
      case "commonPractice":
      case "fromMemory":
        return [];
      default:
        return basis satisfies never;
    }
  });
}

import type { Cart } from "../protocol/equipment.ts";
import type { SessionState } from "../session/state.ts";
import type { ElectricalRules } from "../types/electrical.ts";

/** The source of a cart's figures: the type's own, or the house's register. */
type CartSource = NonNullable<ElectricalRules["cart"]>["source"] | { basis: "register"; text: string };
type CartLimit<U extends string> = { value: number; unit: U; source: CartSource };

/** The cart's cable and its ohms inside. */
export interface CartRules {
  size: string;
  parallel: number;
  /** Out and back. */
  length: CartLimit<"ft" | "m">;
  source: CartSource;
  internalOhm?: CartLimit<"ohm"> | undefined;
  mostDrop?: NonNullable<ElectricalRules["cart"]>["mostDrop"];
}

/** Returns the house's cart of this start: the one whose label was read last, else the first of the plan. */
export function cartOf({ equipment = [] }: Pick<SessionState, "equipment">): Cart | null {
  const carts = equipment.flatMap(({ facts, shown }) => (facts.kind === "cart" ? [{ facts, shown }] : []));
  const shown = carts.filter((c) => c.shown !== undefined).at(-1);
  return (shown ?? carts[0])?.facts ?? null;
}

/**
 * Returns the cable from which drop and sag are worked out: the house's own cart where one is allocated, else the cart
 * of the type. What the house does not know of its cart, the type's figure answers.
 */
export function cartRules(state: SessionState): CartRules | null {
  const ofType = state.type.electrical?.cart ?? null;
  const cart = cartOf(state);
  if (!cart || !state.type.electrical) return ofType;
  const source = { basis: "register" as const, text: `${cart.id}, ${cart.name}` };
  const { size, metres, parallel } = cart.cable;
  const own =
    cart.internalOhm === null
      ? ofType?.internalOhm
      : { value: cart.internalOhm, unit: "ohm" as const, source };
  return {
    ...{ size, parallel, source },
    // Out and back.
    length: { value: 2 * metres, unit: "m", source },
    ...(own ? { internalOhm: own } : {}),
    ...(ofType?.mostDrop ? { mostDrop: ofType.mostDrop } : {}),
  };
}

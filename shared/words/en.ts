import { catalogue } from "./en/catalogue.ts";
import { type Say, sayIn } from "./say.ts";

export const say: Say = sayIn(catalogue);

import { catalogue } from "./es/catalogue.ts";
import { type Say, sayIn } from "./say.ts";

export const say: Say = sayIn(catalogue);

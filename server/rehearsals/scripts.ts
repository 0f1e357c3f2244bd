import fireDay from "../../seed/rehearsals/fireDay.json" with { type: "json" };
import firstDay from "../../seed/rehearsals/firstDay.json" with { type: "json" };
import people from "../../seed/rehearsals/people.json" with { type: "json" };
import readTheGauges from "../../seed/rehearsals/readTheGauges.json" with { type: "json" };
import slowStart from "../../seed/rehearsals/slowStart.json" with { type: "json" };
import worstDay from "../../seed/rehearsals/worstDay.json" with { type: "json" };
import { type RehearsalScript, rehearsalScriptSchema } from "../../shared/rehearsal/script.ts";

/** The scripts that come with the program, from the first day to the worst. They name no person and no aircraft. */
export const SCRIPTS: readonly RehearsalScript[] = [
  firstDay,
  slowStart,
  readTheGauges,
  people,
  fireDay,
  worstDay,
].map((script) => rehearsalScriptSchema.parse(script));

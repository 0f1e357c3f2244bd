import { besiege, type Target } from "../security/siege.ts";

// The attackers' own process, so that their work does not delay what measures the crew. Arguments: the target as JSON,
// seconds. Prints the outcomes as JSON.
const [target = "{}", seconds = "0"] = process.argv.slice(2);
const end = performance.now() + Number(seconds) * 1_000;
console.log(JSON.stringify(await besiege(JSON.parse(target) as Target, () => performance.now() < end)));

// Runs the seeds from its parent and reports the results.
import { simulateMany } from "./many.ts";

process.on("message", ([first, count]: [number, number]) => {
  void simulateMany(first, count).then((runs) => process.send?.(runs));
});

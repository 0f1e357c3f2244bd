// Runs the seeds its parent hands it and says what came of them.
import { simulateMany } from "./many.ts";

process.on("message", ([first, count]: [number, number]) => {
  void simulateMany(first, count).then((runs) => process.send?.(runs));
});

import { faultsOfRuns } from "./rehearsalRuns.ts";

process.on("message", ([first, count]: [number, number]) => {
  process.send?.({ count, faults: faultsOfRuns(first, count) });
});

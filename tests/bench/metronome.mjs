// Beats `count` times, `gapMs` apart, the first at `begin` (milliseconds since the epoch, with fractions).
import { parentPort, workerData } from "node:worker_threads";

// A thread of its own may sleep to a fraction of a millisecond; one that also listens must either be late by a timer's
// whole millisecond or turn without end, and take from the server the processor it is measured on.
const { begin, gapMs, count } = workerData;
const never = new Int32Array(new SharedArrayBuffer(4));
for (let beat = 0; beat < count; beat += 1) {
  const wait = begin + beat * gapMs - (performance.timeOrigin + performance.now());
  if (wait > 0) Atomics.wait(never, 0, 0, wait);
  parentPort.postMessage(beat);
}

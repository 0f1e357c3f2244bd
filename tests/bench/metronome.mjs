// Beats at each of `dues`: milliseconds after `begin`, which is in milliseconds since the epoch, with fractions.
import { parentPort, workerData } from "node:worker_threads";

// This thread does nothing else, so that it can sleep to a fraction of a millisecond. A thread that also listens is
// late by up to a timer's millisecond, or spins and takes the processor from the server under test.
const { begin, dues } = workerData;
const never = new Int32Array(new SharedArrayBuffer(4));
for (let beat = 0; beat < dues.length; beat += 1) {
  const wait = begin + dues[beat] - (performance.timeOrigin + performance.now());
  if (wait > 0) Atomics.wait(never, 0, 0, wait);
  parentPort.postMessage(beat);
}

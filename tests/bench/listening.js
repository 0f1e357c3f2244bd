// Notes when each event of a page's socket arrives, and when the picture after it was handed over: the task after the
// next animation frame. Runs in the page, before its own scripts; plain, because a compiler's helpers are not there.
(() => {
  const heard = {};
  window.heard = heard;
  const now = () => performance.timeOrigin + performance.now();
  const waiting = [];
  const drawn = new MessageChannel();
  drawn.port1.onmessage = () => {
    for (const seq of waiting.splice(0)) heard[seq].drawn ??= now();
  };
  window.WebSocket = class extends WebSocket {
    constructor(...given) {
      super(...given);
      this.addEventListener("message", ({ data }) => {
        if (typeof data !== "string" || !data.startsWith('42["events"')) return;
        const arrived = now();
        for (const { seq } of JSON.parse(data.slice(2))[1].events) {
          heard[seq] ??= { arrived };
          waiting.push(seq);
        }
        requestAnimationFrame(() => drawn.port2.postMessage(null));
      });
    }
  };
})();

// Runs inside the page under test. measure.ts describes what each function measures.
const rgba = (text) => {
  const n = (text.match(/[\d.]+/g) ?? []).map(Number);
  return text.startsWith("color(srgb")
    ? [n[0] * 255, n[1] * 255, n[2] * 255, n[3] ?? 1]
    : [n[0] ?? 0, n[1] ?? 0, n[2] ?? 0, n[3] ?? 1];
};
const linear = (v) => {
  const c = v / 255;
  return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
};
const luminance = ([r, g, b]) => 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
const contrast = (a, b) => {
  const [x, y] = [luminance(a), luminance(b)].sort((p, q) => q - p);
  return (x + 0.05) / (y + 0.05);
};
const over = (top, under) => [0, 1, 2].map((i) => top[i] * top[3] + under[i] * (1 - top[3])).concat(1);
const ground = (e) => {
  const layers = [];
  for (let at = e; at; at = at.parentElement) {
    const c = rgba(getComputedStyle(at).backgroundColor);
    if (c[3] > 0) layers.push(c);
    if (c[3] === 1) break;
  }
  return layers.reverse().reduce((under, top) => over(top, under), [255, 255, 255, 1]);
};
const shown = (e) => e.checkVisibility({ visibilityProperty: true, opacityProperty: true });
const nameOf = (e) =>
  (e.getAttribute("aria-label") || e.textContent || "").trim().replace(/\s+/g, " ").slice(0, 60);
const least = (list) => (list.length === 0 ? null : Math.min(...list));
function controls() {
  return [...document.querySelectorAll("button, a[href], input, select, textarea, summary, [role=button]")]
    .filter((e) => shown(e) && e.getBoundingClientRect().width > 0 && !e.closest("[aria-hidden=true]"))
    .map((e) => {
      const box = e.getBoundingClientRect();
      const inner = [e, ...e.querySelectorAll("*")].filter(shown);
      const texts = inner
        .filter(
          (i) => !i.closest("svg") && [...i.childNodes].some((n) => n.nodeType === 3 && n.textContent.trim()),
        )
        .map((i) => contrast(rgba(getComputedStyle(i).color), ground(i)));
      const shapes = inner
        .filter((i) => i.closest("svg") && i instanceof SVGGeometryElement)
        .map((i) => {
          const style = getComputedStyle(i);
          const behind = ground(i.closest("svg"));
          const inks = [style.fill, style.stroke]
            .filter((p) => p !== "none")
            .map(rgba)
            .filter((c) => c[3] > 0);
          return Math.max(1, ...inks.map((c) => contrast(c, behind)));
        });
      const style = getComputedStyle(e);
      const edged = parseFloat(style.borderTopWidth) > 0 && parseFloat(style.borderLeftWidth) > 0;
      const line = rgba(style.borderTopColor);
      return {
        name: nameOf(e),
        width: box.width,
        height: box.height,
        stop: e.matches(".stop"),
        text: least(texts),
        shape: least(shapes),
        edge: edged ? Math.max(contrast(line, ground(e)), contrast(line, ground(e.parentElement))) : null,
        disabled: e.disabled === true,
      };
    });
}
function surfaces() {
  return [...document.querySelectorAll("*")]
    .filter((e) => shown(e))
    .flatMap((e) => {
      const box = e.getBoundingClientRect();
      if (box.width < 83 || box.height < 20) return [];
      const style = getComputedStyle(e);
      const drawn =
        e instanceof SVGGeometryElement
          ? [style.fill]
          : e instanceof SVGElement
            ? []
            : [style.backgroundColor];
      return drawn
        .filter((p) => p !== "none")
        .map(rgba)
        .filter((c) => c[3] > 0)
        .map((c) => ({
          name: `${e.tagName}.${e.getAttribute("class") ?? ""}`,
          luminance: luminance(c),
          red: linear(c[0]),
          blue: linear(c[2]),
        }));
    });
}
function small(px) {
  return [...document.querySelectorAll(".session *")]
    .filter((e) => !e.closest("svg, .visually-hidden") && shown(e))
    .filter((e) => [...e.childNodes].some((n) => n.nodeType === 3 && n.textContent.trim()))
    .filter((e) => Number.parseFloat(getComputedStyle(e).fontSize) < px)
    .map((e) => `${nameOf(e)}: ${getComputedStyle(e).fontSize}`);
}
function flashing() {
  return document
    .getAnimations()
    .filter(
      (a) =>
        a.effect?.getTiming().iterations === Infinity &&
        a.effect.getKeyframes().some((k) => k.opacity !== undefined),
    )
    .map((a) => {
      const cycle = Number(a.effect.getComputedTiming().duration);
      const seen = [];
      const was = a.currentTime;
      a.pause();
      for (let i = 0; i < 200; i += 1) {
        a.currentTime = (cycle * i) / 200;
        seen.push(Number(getComputedStyle(a.effect.target).opacity));
      }
      a.currentTime = was;
      a.play();
      const rises = seen.filter((o, i) => o - seen.at(i - 1) > 0.1).length;
      return { name: a.effect.target.getAttribute("class") ?? "", perSecond: (rises * 1000) / cycle };
    });
}

/** Returns whether the point is on the page and nothing covers the element there. */
const touchable = (e, x, y) => {
  const top = document.elementFromPoint(x, y);
  return top !== null && e.contains(top);
};
function layout() {
  const faults = [];
  for (const e of [
    document.documentElement,
    ...document.querySelectorAll(".panel-main, .panel-ask, .panel-plan"),
  ]) {
    const out = e.scrollWidth - e.clientWidth;
    if (out > 0) faults.push(`${e.className || "the page"} runs out sideways by ${out} px`);
  }
  const sentence = document.querySelector(".ask h2");
  const words = document.createRange();
  if (sentence) words.selectNodeContents(sentence);
  const lines = [...words.getClientRects()];
  if (lines.length === 0) faults.push("no sentence is asked");
  for (const line of lines) {
    const y = line.top + line.height / 2;
    if (![line.left + 2, line.right - 2].every((x) => touchable(sentence, x, y)))
      faults.push(`out of sight: ${sentence.textContent}`);
  }
  const stops = [...document.querySelectorAll(".stop")];
  if (stops.length !== 3) faults.push(`${stops.length} stops`);
  for (const stop of stops) {
    const { left, right, top, bottom } = stop.getBoundingClientRect();
    const inset = 8;
    const points = [left + inset, (left + right) / 2, right - inset].flatMap((x) =>
      [top + inset, (top + bottom) / 2, bottom - inset].map((y) => [x, y]),
    );
    if (!points.every(([x, y]) => touchable(stop, x, y))) faults.push(`covered: ${nameOf(stop)}`);
  }
  return faults;
}
const KEYS = "button, a[href], input, select, textarea, summary, [role=button], [role=radio]";
const SCROLLERS = "html, .panel-main, .panel-ask, .panel-plan, .sheet-body, .exchange-scroll, .plate";
/** Returns whether an element cuts off its own text. */
const clips = (e) => getComputedStyle(e).overflowX !== "visible" && e.scrollWidth > e.clientWidth + 1;
/** Returns whether an element's own text reaches out of the key. */
const spills = (e, key) => {
  const box = key.getBoundingClientRect();
  return [...e.childNodes]
    .filter((n) => n.nodeType === 3 && n.textContent.trim() !== "")
    .some((n) => {
      const words = document.createRange();
      words.selectNodeContents(n);
      return [...words.getClientRects()].some(
        (r) =>
          r.left < box.left - 1 ||
          r.right > box.right + 1 ||
          r.top + r.height / 4 < box.top ||
          r.bottom - r.height / 4 > box.bottom,
      );
    });
};
/**
 * Returns the first key of the ask when it is out of sight before anything is scrolled. A key that takes no touch,
 * because the server is not heard, may be: only the stops act then.
 */
function belowFold() {
  const key = document.querySelector(".ask > .answers .answer:not(:disabled)");
  if (!key || [...document.querySelectorAll(".panel-main, .panel-ask")].some((e) => e.scrollTop > 0))
    return [];
  const { bottom } = key.getBoundingClientRect();
  const fold = document.querySelector(".panel-foot")?.getBoundingClientRect().top ?? innerHeight;
  return bottom > fold ? [`below the fold by ${Math.round(bottom - fold)} px: ${nameOf(key)}`] : [];
}
function covered() {
  // A new ask takes no touch for half a second; that is not what is measured.
  for (const a of document.getAnimations()) if (a.animationName === "settling") a.finish();
  const sheet = [...document.querySelectorAll(".sheet")].filter(shown).at(-1);
  const reachable = (e) => !sheet || sheet.contains(e) || e.closest(".stops") !== null;
  const keys = [...document.querySelectorAll(KEYS)].filter(
    (e) =>
      shown(e) &&
      !e.closest("[aria-hidden=true], .visually-hidden") &&
      e.getBoundingClientRect().width > 1 &&
      reachable(e),
  );
  const scrolled = [...document.querySelectorAll(SCROLLERS)].map((e) => [e, e.scrollLeft, e.scrollTop]);
  const faults = sheet ? [] : belowFold();
  faults.push(
    ...keys.flatMap((e) => {
      e.scrollIntoView({ block: "nearest", inline: "nearest", behavior: "instant" });
      const { left, right, top, bottom } = e.getBoundingClientRect();
      const inset = 3;
      const edges = [
        [left + inset, top + inset],
        [right - inset, top + inset],
        [left + inset, bottom - inset],
        [right - inset, bottom - inset],
      ];
      const large = bottom - top > innerHeight / 2;
      const found = [];
      if (!large && !touchable(e, (left + right) / 2, (top + bottom) / 2)) found.push("covered");
      else if (!large && !edges.every(([x, y]) => touchable(e, x, y))) found.push("cut off at its edge");
      const cut = [e, ...e.querySelectorAll("*")].filter(
        (i) => !i.closest("svg, select, input, textarea, .visually-hidden") && (clips(i) || spills(i, e)),
      );
      if (cut.length > 0) found.push(`its words do not fit: ${nameOf(cut.at(-1))}`);
      return found.map((f) => `${nameOf(e)}: ${f}`);
    }),
  );
  for (const [e, x, y] of scrolled) e.scrollTo({ left: x, top: y, behavior: "instant" });
  return faults;
}
({ controls, surfaces, small, flashing, layout, covered });

/** One mark of the panels. A mark means one thing wherever it is drawn. */
export interface Mark {
  /** Its drawing in words, told apart without colour. */
  form: string;
  /** Its only meaning. */
  means: string;
  /** The declarations that draw it, and every selector of the panels' style sheets that may use them. */
  drawn?: { by: RegExp; in: readonly string[] };
}

/** The meaning of each mark on a panel. `web/README.md` has the same table; `tests/panels/marks.test.ts` holds both. */
export const MARKS = {
  doubleLine: {
    form: "Double line round a key",
    means: "This answer declines, reports a fault or takes back",
    drawn: { by: /double/, in: ['.answer[data-tone="no"]'] },
  },
  blue: {
    form: "Blue, rose by night",
    means: "Asked, and waits for an answer",
    drawn: {
      by: /var\(--(on-)?must/,
      in: [
        ".ask",
        ".weight-mark",
        ".engine-key[data-asked]",
        ".plan-leader-asked",
        '.wall-row[data-needs="ready"] .wall-needs',
        '.strip-needs[data-needs="ready"]',
        ".ramp-card[data-offered] > .ramp-mine",
      ],
    },
  },
  yellow: {
    form: "Yellow with an edge of ink",
    means: "Not as it should be: held, past a limit, silent, not lasting",
    drawn: {
      by: /var\(--(on-)?warning/,
      in: [
        '.lightning-key[data-tone="no"]',
        ".lightning-stands[data-stops]",
        '.ask[data-weight="alert"]',
        '.ask[data-weight="alert"] .weight-mark',
        ".time-left[data-over]",
        ".wall-row[data-needs] .wall-needs",
        ".entry-before-sending h3",
        '.entry-value[data-good="false"] .entry-band',
        '.exchange-arrow[data-tone="hold"] line',
        '.exchange-note[data-tone="warning"] rect',
        '.exchange-note[data-tone="warning"] text:not(.exchange-time)',
        '.queue-row[data-weight="alert"]',
        '.sent li[data-is="lapsed"]',
        ".engine-table td[data-over]",
        ".notice-words",
        ".engine-count[data-over]",
        '.readings-strip:is([data-band="belowMin"], [data-band="over"]) .readings-band',
        '.instruments :is([data-band="belowMin"], [data-band="over"], [data-verdict="over"]) .instruments-band',
        ".stand-by-time[data-over]",
        ".post-now-left[data-over]",
        '.volts-now[data-is="old"] p',
        ".stop-hold",
        '.standing-row[data-kind="hold"]',
        ".strip-needs[data-needs]",
        '.title-clock[data-is="stale"]',
        '.title-post[data-is="silent"]',
        ".rehearsal-sees[data-wrong] strong",
      ],
    },
  },
  green: {
    form: "Green",
    means: "It is so: met, in range, recorded, stable",
    drawn: {
      by: /var\(--safe/,
      in: [
        '.wall-engine:is([data-shape="stable"], [data-shape="clear"]) .engine-shape',
        '.card-item[data-is="good"] .check-mark',
        ".entry-band",
        ".scale-band",
        '.sent li[data-is="recorded"]',
        '.checks li[data-is="good"] .check-mark',
        '.conditions tr[data-is="yes"] .condition-mark',
        '.engine-key[data-shape="stable"] .engine-shape',
        '.engine-key[data-shape="clear"] .engine-shape',
        '.readings-strip[data-band="normal"] .readings-band',
        '.instruments :is([data-band="normal"], [data-verdict="within"]) .instruments-band',
        '.rehearsal-instruments [data-band="normal"]',
        ".strip-normal-edge",
        '.stand-by:is([data-shape="stable"], [data-shape="clear"]) .engine-shape',
      ],
    },
  },
  redHatch: {
    form: "Red hatching",
    means: "A propeller turns here",
    drawn: { by: /repeating-linear-gradient\([^;]*--danger/, in: [".engine-key[data-turning]"] },
  },
  stripedEdge: {
    form: "Striped edge round the whole page",
    means: "A rehearsal: no aircraft is started",
    drawn: { by: /repeating-linear-gradient\([^;]*--solid/, in: [".rehearsal-edge"] },
  },
  greyHatch: {
    form: "Grey or yellow hatching the other way",
    means: "Not the present: old, or looked back at",
    drawn: {
      by: /repeating-linear-gradient\((?![^;]*--danger)/,
      in: [
        ".wall-old",
        ".wall[data-old] .wall-rows",
        '.panel[data-kind="past"]',
        ".stale",
        ".panel[data-stale] .panel-plan",
        ".panel[data-stale] .queue",
        ".panel[data-stale] .conditions",
        ".panel[data-stale] .ask-body",
      ],
    },
  },
  dashed: {
    form: "Dashed or dotted line",
    means: "Not known, not recorded yet, or not to be used now",
    drawn: {
      by: /dash(ed|array)|dotted/,
      in: [
        ".ask-sending",
        '.pad-cell:is([data-is="not"], [data-is="sending"], [data-off])',
        ".answer:disabled",
        ".small-key:disabled",
        '.sent li[data-is="sending"]',
        ".plan-chock-unknown",
        ".plan-cart-unknown",
        '.volts-now[data-is="unknown"] output',
        ".strip-since",
        ".readings-strip[data-old] .readings-band",
        ".instruments [data-old] :is(strong, .instruments-band)",
        '.title-post[data-is="vacant"] strong',
      ],
    },
  },
  chainLine: {
    form: "Long and short dashes",
    means: "The aircraft's centre line",
    drawn: { by: /dasharray: 30 8 6 8/, in: [".plan-centre"] },
  },
  dots: {
    form: "Row of round dots",
    means: "The way to walk",
    drawn: { by: /dasharray: 0\.1 14/, in: [".stand-walk"] },
  },
  octagon: { form: "Octagon", means: "Danger, or cut" },
  triangle: { form: "Triangle", means: "Alert" },
  bars: { form: "Two upright bars", means: "Hold" },
  flame: { form: "Flame", means: "Fire" },
  disc: { form: "Full disc", means: "The ask of now" },
  square: { form: "Full square", means: "An ask that can wait" },
  still: { form: "Upright blades in outline", means: "The engine waits" },
  asked: { form: "Blades in outline, ring round them", means: "The engine is asked for" },
  clear: { form: "Full blades in a diamond", means: "The engine is clear to start" },
  cranking: { form: "Half a disc hatched", means: "The engine is cranked" },
  caught: { form: "Whole disc hatched", means: "The engine runs and is not stable yet" },
  stable: { form: "Whole disc hatched, full hub, line below", means: "The engine runs and is stable" },
  stopped: { form: "Blades across in a square", means: "The engine is shut down, or its starter cools" },
} as const satisfies Record<string, Mark>;

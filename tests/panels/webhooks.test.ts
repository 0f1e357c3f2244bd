import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import type { WebhooksNow } from "../../web/net/webhooks.ts";
import { WebhookList } from "../../web/pages/house/WebhookList.tsx";
import { inOut } from "../../web/words/en/inOut.ts";

/** Returns the rows, the headings and the keys of the list. */
function shown(now: WebhooksNow) {
  const html = renderToStaticMarkup(
    createElement(WebhookList, {
      now,
      again: async () => ({ why: null }),
      onTaken: () => undefined,
      onTrouble: () => undefined,
    }),
  );
  const inside = (tag: string) =>
    [...html.matchAll(new RegExp(`<${tag}[ >][^<]*(.*?)</${tag}>`, "gs"))].map(([whole]) =>
      whole.replaceAll(/<[^>]+>/g, "|").replaceAll(/\|+/g, "|"),
    );
  return { rows: inside("li"), heads: inside("h3"), keys: inside("button"), html };
}

const target = (name: string, here: boolean, waits: string | null) => ({
  ...{ name, host: `${name}.example`, kinds: ["stop.given"], here, waits },
});
const letter = (nth: number, why = "answered 410") => ({
  ...{ at: `2026-06-0${nth}T09:30:00.000Z`, target: "hangar", id: `s.${nth}`, kind: "stop.given", why },
});

describe("the webhooks on the page of the house", () => {
  it("[INT-44] says of each whether it sends, waits and why, or is sent by another server", () => {
    const targets = [
      target("hangar", true, null),
      target("wall", true, "answered 503"),
      target("desk", false, null),
    ];
    const { rows, heads, keys } = shown({ targets, givenUp: [] });
    expect(rows).toEqual([
      `|hangar|hangar.example|${inOut.sends}|`,
      `|wall|wall.example|${inOut.waits("answered 503")}|`,
      `|desk|desk.example|${inOut.elsewhere}|`,
    ]);
    // Nothing was given up: there is no heading for it and no key that does nothing.
    expect([heads, keys]).toEqual([[], []]);
  });

  it("[INT-44] names each message that was given up, its day, kind and reason, with a key to send it again", () => {
    const { rows, heads, keys, html } = shown({
      targets: [],
      givenUp: [letter(2, "no answer in time"), letter(1)],
    });
    expect(heads).toEqual([`|${inOut.givenUp(2)}|`]);
    expect(rows).toHaveLength(2);
    expect(rows[0]).toContain("stop.given, ");
    expect(rows[0]).toContain(inOut.stillNot("no answer in time"));
    expect(rows[1]).toContain(inOut.stillNot("answered 410"));
    expect(keys).toEqual([`|${inOut.again}|`, `|${inOut.again}|`]);
    expect(html).toContain('aria-label="hangar s.2"');
    expect(html).toContain('role="status"');
  });

  it("[INT-44] says that the operator named none", () => {
    expect(shown({ targets: [], givenUp: [] }).html).toContain(inOut.noWebhooks);
  });
});

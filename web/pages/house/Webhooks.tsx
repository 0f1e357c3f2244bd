import { useEffect, useState } from "react";
import { type WebhooksNow, webhooks } from "../../net/webhooks.ts";
import { WebhookList } from "./WebhookList.tsx";

/** The operator's webhooks: what waits, and what was given up, which can be sent once more. */
export function Webhooks({ onTrouble }: { onTrouble(error: Error | null): void }) {
  const [now, setNow] = useState<WebhooksNow | null>(null);
  const read = () => void webhooks.now().then(setNow, onTrouble);
  // biome-ignore lint/correctness/useExhaustiveDependencies: fetch once
  useEffect(read, []);
  return now && <WebhookList now={now} again={webhooks.again} onTaken={read} onTrouble={onTrouble} />;
}

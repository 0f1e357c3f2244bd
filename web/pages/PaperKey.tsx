import { useState } from "react";
import { api } from "../net/app.ts";
import { Trouble } from "../ui/Trouble.tsx";
import { useWords } from "../words/words.ts";

/** Time for which an opened sheet's data is kept for the page that shows it, milliseconds. */
const KEPT_MS = 60_000;

/**
 * A key that fetches a printable sheet with the sign-in token and opens it, or saves it where the browser shows no
 * PDF.
 */
export function PaperKey({ path, word }: { path: string; word: string }) {
  const { net, ramp } = useWords().text;
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<Error | null>(null);
  const open = async () => {
    setBusy(true);
    setTrouble(null);
    try {
      const address = URL.createObjectURL(await (await api.send("GET", path)).blob());
      const anchor = document.createElement("a");
      anchor.href = address;
      if (navigator.pdfViewerEnabled) anchor.target = "_blank";
      else anchor.download = `chockside-${path.split("?")[0]?.split("/").at(-1)}`;
      anchor.click();
      setTimeout(() => URL.revokeObjectURL(address), KEPT_MS);
    } catch (error) {
      setTrouble(error instanceof Error ? error : new Error(net.notFetched));
    }
    setBusy(false);
  };
  return (
    <>
      <button type="button" className="answer" data-tone="plain" disabled={busy} onClick={() => void open()}>
        {busy ? ramp.setting : word}
      </button>
      <Trouble of={trouble} />
    </>
  );
}

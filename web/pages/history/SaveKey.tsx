import { api } from "../../net/app.ts";
import { type HistoryOf, histories } from "../../net/history.ts";
import { useHistoryWords } from "../../words/history.ts";

interface Props {
  of: HistoryOf;
  onTrouble(error: Error): void;
}

/** A key that saves them as a file. */
export function SaveKey({ of, onTrouble }: Props) {
  const words = useHistoryWords();
  const save = () =>
    api.send("GET", histories.file(of)).then(async (reply) => {
      const address = URL.createObjectURL(await reply.blob());
      const anchor = document.createElement("a");
      anchor.href = address;
      anchor.download = `chockside-${nameOf(of)}.csv`;
      anchor.click();
      URL.revokeObjectURL(address);
    }, onTrouble);
  return (
    <button type="button" className="answer" data-tone="plain" onClick={() => void save()}>
      {words.save}
    </button>
  );
}

function nameOf(of: HistoryOf): string {
  if ("weeks" in of) return "house";
  return "serial" in of ? `engine-${of.serial}` : `aircraft-${of.aircraft}`;
}

import { api } from "../../net/app.ts";
import { histories } from "../../net/history.ts";
import { useHistoryWords } from "../../words/history.ts";

interface Props {
  of: { aircraft: string } | { serial: string };
  onTrouble(error: Error): void;
}

/** A key that saves the starts as a file. */
export function SaveKey({ of, onTrouble }: Props) {
  const words = useHistoryWords();
  const save = () =>
    api.send("GET", histories.file(of)).then(async (reply) => {
      const address = URL.createObjectURL(await reply.blob());
      const anchor = document.createElement("a");
      anchor.href = address;
      anchor.download = `chockside-${"serial" in of ? `engine-${of.serial}` : `aircraft-${of.aircraft}`}.csv`;
      anchor.click();
      URL.revokeObjectURL(address);
    }, onTrouble);
  return (
    <button type="button" className="answer" data-tone="plain" onClick={() => void save()}>
      {words.save}
    </button>
  );
}

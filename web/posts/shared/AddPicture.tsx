import { useId, useState } from "react";
import "../../styles/pictures.css";
import { pictures } from "../../net/pictures.ts";
import { smallPicture } from "../../ui/pictures/smallPicture.ts";
import { Trouble } from "../../ui/Trouble.tsx";
import { usePictureWords } from "../../words/pictures.ts";

interface Props {
  aircraft: string;
  /** The defect's id, and its words. */
  defect: { id: string; words: string };
  onAdded?(): void;
}

type Doing = "nothing" | "working" | "sending" | "added";

/** A key that takes a picture or lets one be chosen, makes it small and sends it. The defect is reported before. */
export function AddPicture({ aircraft, defect, onAdded }: Props) {
  const words = usePictureWords();
  const [doing, setDoing] = useState<Doing>("nothing");
  const [trouble, setTrouble] = useState<Error | null>(null);
  const id = useId();
  const busy = doing === "working" || doing === "sending";
  const send = async (file: File) => {
    setTrouble(null);
    setDoing("working");
    const small = await smallPicture(file).catch(() => null);
    if (!small) {
      setDoing("nothing");
      setTrouble(new Error(words.unreadable));
      return;
    }
    setDoing("sending");
    try {
      await pictures.add(aircraft, defect.id, small, crypto.randomUUID());
      setDoing("added");
      onAdded?.();
    } catch (error) {
      setDoing("nothing");
      setTrouble(error as Error);
    }
  };
  return (
    <div className="picture-add">
      <span className="picture-key">
        <input
          id={id}
          className="picture-file"
          type="file"
          accept="image/*"
          aria-label={words.addTo(defect.words)}
          disabled={busy}
          onChange={(e) => {
            const [file] = e.target.files ?? [];
            // So that the same file can be chosen again.
            e.target.value = "";
            if (file) void send(file);
          }}
        />
        <label className="small-key" htmlFor={id} aria-hidden="true" data-busy={busy || undefined}>
          {words.add}
        </label>
      </span>
      <span role="status">{doing === "nothing" ? "" : words[doing]}</span>
      {trouble && <Trouble of={trouble} />}
    </div>
  );
}

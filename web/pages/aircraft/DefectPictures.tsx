import { useEffect, useState } from "react";
import { dayAndMinute } from "../../../shared/words/dates.ts";
import type { DefectRow } from "../../net/aircraft.ts";
import { pictures } from "../../net/pictures.ts";
import { saveFile } from "../../net/saveFile.ts";
import { FormKeys } from "../../ui/FormKeys.tsx";
import { usePictureWords } from "../../words/pictures.ts";
import { useWords } from "../../words/words.ts";

type Shown = DefectRow["pictures"][number];

interface Props {
  aircraft: string;
  defect: DefectRow;
  /** Null for those who do not remove pictures. */
  onRemoved: (() => void) | null;
  onTrouble(error: Error): void;
}

/** The pictures of a defect, fetched when they are asked for; those that are gone in words. */
export function DefectPictures({ aircraft, defect, onRemoved, onTrouble }: Props) {
  const words = usePictureWords();
  const [open, setOpen] = useState(false);
  if (defect.pictures.length === 0) return null;
  return (
    <details className="defect-pictures" onToggle={(e) => setOpen(e.currentTarget.open)}>
      <summary className="small-key">{words.title(defect.pictures.length)}</summary>
      {open && (
        <ul>
          {defect.pictures.map((picture, i) => (
            <li key={picture.sha256}>
              {picture.kept ? (
                <OnePicture
                  {...{ aircraft, defect, picture, onRemoved, onTrouble }}
                  name={words.of(defect.words, i + 1)}
                />
              ) : (
                <Gone picture={picture} />
              )}
            </li>
          ))}
        </ul>
      )}
    </details>
  );
}

function Gone({ picture: { name, at, removed } }: { picture: Shown }) {
  const words = usePictureWords();
  const { say } = useWords();
  const when = (moment: number) => dayAndMinute(moment, say.language);
  return (
    <>
      <p className="register-why">{words.gone(say.person(name), when(at))}</p>
      {removed && (
        <p className="register-why">
          {words.removed(say.person(removed.name), when(removed.at), removed.reason)}
        </p>
      )}
    </>
  );
}

function OnePicture({
  aircraft,
  defect,
  picture,
  name,
  onRemoved,
  onTrouble,
}: Props & { picture: Shown; name: string }) {
  const words = usePictureWords();
  const { say } = useWords();
  const { sha256, width, height, media } = picture;
  const [bytes, setBytes] = useState<{ blob: Blob; address: string } | null>(null);
  const [reason, setReason] = useState<string | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: read once for each picture
  useEffect(() => {
    let address: string | null = null;
    let left = false;
    pictures.read(aircraft, defect.id, sha256).then((blob) => {
      if (left) return;
      address = URL.createObjectURL(blob);
      setBytes({ blob, address });
    }, onTrouble);
    return () => {
      left = true;
      if (address !== null) URL.revokeObjectURL(address);
    };
  }, [sha256]);
  const remove = () =>
    pictures.remove(aircraft, defect.id, sha256, (reason ?? "").trim()).then(() => onRemoved?.(), onTrouble);
  return (
    <figure>
      {bytes && <img src={bytes.address} alt={name} width={width} height={height} />}
      <figcaption>{words.by(say.person(picture.name), dayAndMinute(picture.at, say.language))}</figcaption>
      {reason === null ? (
        <div className="head-keys">
          {bytes && (
            <button
              type="button"
              className="small-key"
              onClick={() => saveFile(bytes.blob, `${sha256}.${media.split("/")[1]}`)}
            >
              {words.save}
            </button>
          )}
          {onRemoved && (
            <button type="button" className="small-key" onClick={() => setReason("")}>
              {words.remove}
            </button>
          )}
        </div>
      ) : (
        <form
          onSubmit={(e) => {
            e.preventDefault();
            void remove();
          }}
        >
          <label className="field">
            <span>{words.why}</span>
            <input
              name="reason"
              maxLength={280}
              autoComplete="off"
              value={reason}
              onChange={(e) => setReason(e.target.value)}
            />
          </label>
          <FormKeys
            send={words.remove}
            leave={words.leave}
            ready={reason.trim() !== ""}
            onLeave={() => setReason(null)}
          />
        </form>
      )}
    </figure>
  );
}

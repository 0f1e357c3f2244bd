import { api } from "../../net/app.ts";
import { saveFile } from "../../net/saveFile.ts";

interface Props {
  path: string;
  /** Part of the file's name. */
  name: string;
  /** By default a table. */
  ending?: "csv" | "ndjson" | "tar";
  /** Among the keys of the page's head, which are larger. */
  large?: boolean;
  word: string;
  onTrouble(error: Error): void;
}

/** A key that saves what the server gives at an address as a file. */
export function FileKey({ path, name, ending = "csv", large = false, word, onTrouble }: Props) {
  const save = () =>
    api
      .send("GET", path)
      .then((reply) => reply.blob())
      .then((bytes) => saveFile(bytes, `chockside-${name}.${ending}`), onTrouble);
  return (
    <button
      type="button"
      className={large ? "answer" : "small-key file-key"}
      data-tone="plain"
      onClick={() => void save()}
    >
      {word}
    </button>
  );
}

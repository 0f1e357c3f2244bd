import { api } from "../../net/app.ts";
import { saveFile } from "../../net/saveFile.ts";

interface Props {
  path: string;
  /** Part of the file's name. */
  name: string;
  word: string;
  onTrouble(error: Error): void;
}

/** A key that saves a table of the server as a file. */
export function FileKey({ path, name, word, onTrouble }: Props) {
  const save = () =>
    api
      .send("GET", path)
      .then((reply) => reply.blob())
      .then((bytes) => saveFile(bytes, `chockside-${name}.csv`), onTrouble);
  return (
    <button type="button" className="small-key file-key" onClick={() => void save()}>
      {word}
    </button>
  );
}

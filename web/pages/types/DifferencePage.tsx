import { useEffect, useState } from "react";
import { type Difference, difference } from "../../../shared/types/difference.ts";
import { types } from "../../net/types.ts";
import { TranslatedText } from "../../ui/TranslatedText.tsx";
import { useTypeFaults, useTypeWords } from "../../words/types.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";
import { useTypeNames } from "./names.ts";
import { Key, PageHead, TypeTrouble } from "./PageHead.tsx";

/** The differences between two versions, figure by figure. */
export function DifferencePage({ id, before, after }: { id: string; before: number; after: number }) {
  const words = useTypeWords();
  const { app } = useWords().text;
  const [found, setFound] = useState<Difference[] | null>(null);
  const [trouble, setTrouble] = useState<Error | null>(null);
  useEffect(() => {
    setFound(null);
    Promise.all([types.read({ id, version: before }), types.read({ id, version: after })]).then(
      ([a, b]) => setFound(difference(a.type, b.type)),
      setTrouble,
    );
  }, [id, before, after]);
  return (
    <main className="page types">
      <PageHead title={words.difference} words={words.fromTo(id, before, after)}>
        <Key onPress={() => go(`/types/${id}/${after}`)}>{words.toVersion(after)}</Key>
        <Key onPress={() => go("/types")}>{words.all}</Key>
      </PageHead>
      <TypeTrouble error={trouble} />
      {found === null && trouble === null && <p className="empty">{app.fetching}</p>}
      {found && <DifferenceTable found={found} before={words.version(before)} after={words.version(after)} />}
    </main>
  );
}

interface TableProps {
  found: readonly Difference[];
  before: string;
  after: string;
}

export function DifferenceTable({ found, before, after }: TableProps) {
  const words = useTypeWords();
  const names = useTypeNames();
  const sources = useTypeFaults();
  /** Returns an enumeration value in words, a source with its basis, or the author's text as written. */
  const shown = (value: string) => {
    const named = names.value(value);
    return named === value ? sources(value) : [{ words: named, asWritten: false }];
  };
  if (found.length === 0) return <p className="empty">{words.noDifference}</p>;
  return (
    <table className="difference">
      <thead>
        <tr>
          <th scope="col">{words.what}</th>
          <th scope="col">{before}</th>
          <th scope="col">{after}</th>
        </tr>
      </thead>
      <tbody>
        {found.map((d) => (
          <tr key={`${d.path} ${d.before} ${d.after}`}>
            <th scope="row">{names.path(d.path)}</th>
            <td data-label={before}>
              {d.before === null ? (
                <em>{words.absent}</em>
              ) : (
                <del>
                  <TranslatedText pieces={shown(d.before)} />
                </del>
              )}
            </td>
            <td data-label={after}>
              {d.after === null ? (
                <em>{words.absent}</em>
              ) : (
                <ins>
                  <TranslatedText pieces={shown(d.after)} />
                </ins>
              )}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

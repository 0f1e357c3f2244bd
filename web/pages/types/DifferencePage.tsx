import { useEffect, useState } from "react";
import { type Difference, difference } from "../../../shared/types/difference.ts";
import { types } from "../../net/types.ts";
import { go } from "../route.ts";
import { Key, PageHead, Trouble } from "./PageHead.tsx";
import { pathWords } from "./words.ts";

/** What differs between two versions, figure by figure. */
export function DifferencePage({ id, before, after }: { id: string; before: number; after: number }) {
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
      <PageHead title="Difference" words={`${id}: from version ${before} to version ${after}`}>
        <Key onPress={() => go(`/types/${id}/${after}`)}>To version {after}</Key>
        <Key onPress={() => go("/types")}>All types</Key>
      </PageHead>
      <Trouble error={trouble} />
      {found === null && trouble === null && <p className="empty">Fetching…</p>}
      {found && <DifferenceTable found={found} before={`Version ${before}`} after={`Version ${after}`} />}
    </main>
  );
}

interface TableProps {
  found: readonly Difference[];
  before: string;
  after: string;
}

export function DifferenceTable({ found, before, after }: TableProps) {
  if (found.length === 0) return <p className="empty">No figure and no source differs.</p>;
  return (
    <table className="difference">
      <thead>
        <tr>
          <th scope="col">What</th>
          <th scope="col">{before}</th>
          <th scope="col">{after}</th>
        </tr>
      </thead>
      <tbody>
        {found.map((d) => (
          <tr key={`${d.path} ${d.before} ${d.after}`}>
            <th scope="row">{pathWords(d.path)}</th>
            <td data-label={before}>{d.before === null ? <em>not there</em> : <del>{d.before}</del>}</td>
            <td data-label={after}>{d.after === null ? <em>not there</em> : <ins>{d.after}</ins>}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

import { useState } from "react";
import type { Me } from "../../net/keep.ts";
import { saveFile } from "../../net/saveFile.ts";
import { type ReadType, type TypePlace, type TypeRow, types } from "../../net/types.ts";
import { Caution } from "../../posts/shared/Caution.tsx";
import { useTypeWords } from "../../words/types.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";
import { useRenewed } from "../useRenewed.ts";
import { Approval } from "./Approval.tsx";
import { Discard } from "./Discard.tsx";
import { Key, PageHead, TypeTrouble } from "./PageHead.tsx";
import { bySentence, Status } from "./status.tsx";
import { TypeReading } from "./TypeReading.tsx";

const NOTHING = { read: null, rows: [] };

/** One version of a type to read, with the keys for what may be done with it. */
export function TypePage({ id, version, me, changed }: TypePlace & { me: Me; changed: number }) {
  const words = useTypeWords();
  const {
    say,
    text: { app },
  } = useWords();
  // Both in one state, because the page is drawn when both have come.
  const [{ read, rows }, setCame] = useState<{ read: ReadType | null; rows: TypeRow[] }>(NOTHING);
  const [trouble, setTrouble] = useState<Error | null>(null);
  const place = { id, version };
  const renew = () => {
    types
      .list()
      .then((all) => {
        const rows = all.filter((r) => r.id === id);
        // A draft that was read and is gone was discarded, here or by somebody else.
        if (read && !rows.some((r) => r.version === version)) return go("/types");
        return types.read({ id, version }).then((read) => setCame({ read, rows }));
      })
      .catch(setTrouble);
  };
  useRenewed(changed, renew);
  const row = rows.find((r) => r.version === version);
  const may = me.mayHold.includes("supervisor");
  const before = rows.filter((r) => r.version < version && r.status !== "draft").at(-1);
  const save = async () => saveFile(await types.export(place), `chockside-type-${id}-${version}.json`);
  return (
    <main className="page types">
      <PageHead title={read?.type.name ?? words.one} words={words.nameVersion(id, version)}>
        {may && row?.status === "draft" && (
          <Key onPress={() => go(`/types/${id}/${version}/edit`)}>{words.edit}</Key>
        )}
        {may && (
          <Key
            onPress={() =>
              void types.draft(place).then((made) => go(`/types/${made.id}/${made.version}/edit`), setTrouble)
            }
          >
            {words.draft}
          </Key>
        )}
        {before && (
          <Key onPress={() => go(`/types/${id}/${version}/since/${before.version}`)}>
            {words.differenceFrom(before.version)}
          </Key>
        )}
        <Key onPress={() => void save().catch(setTrouble)}>{words.export}</Key>
        <Key onPress={() => go("/types")}>{words.all}</Key>
      </PageHead>
      <TypeTrouble error={trouble} />
      {row && (
        <p className="type-standing" data-is={row.status}>
          <Status status={row.status} /> {bySentence(row, words, say.language)}
        </p>
      )}
      {row?.status === "draft" && read && (
        // Another revision is another thing to look at: what was ticked and typed for the one before is gone.
        <Approval
          key={read.tag}
          place={place}
          type={read.type}
          tag={read.tag}
          me={me}
          author={row.author}
          since={before?.version ?? null}
          onApproved={renew}
          onTrouble={setTrouble}
        />
      )}
      {may && row?.status === "draft" && read && (
        <Discard place={place} tag={read.tag} onDiscarded={() => go("/types")} onTrouble={setTrouble} />
      )}
      {read ? (
        <TypeReading type={read.type} />
      ) : (
        trouble === null && <p className="empty type-to-come">{app.fetching}</p>
      )}
      <Caution />
    </main>
  );
}

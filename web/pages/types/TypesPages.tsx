import "../../styles/types.css";
import "../../styles/types-edit.css";
import type { Me } from "../../net/keep.ts";
import type { TypesRoute } from "../route.ts";
import { BegunPage } from "./BegunPage.tsx";
import { DifferencePage } from "./DifferencePage.tsx";
import { EditPage } from "./EditPage.tsx";
import { TypeList } from "./TypeList.tsx";
import { TypePage } from "./TypePage.tsx";

/** The pages of aircraft types, made for a desk, not for gloves. */
export function TypesPages({ page, me, changed }: { page: TypesRoute; me: Me; changed: number }) {
  switch (page.is) {
    case "list":
      return <TypeList me={me} changed={changed} />;
    case "version":
      return (
        <TypePage
          key={`${page.id} ${page.version}`}
          id={page.id}
          version={page.version}
          me={me}
          changed={changed}
        />
      );
    case "edit":
      return <EditPage key={`${page.id} ${page.version}`} id={page.id} version={page.version} />;
    case "begun":
      return <BegunPage key={page.id} id={page.id} me={me} />;
    case "difference":
      return <DifferencePage {...page} />;
  }
}

import "../../styles/house.css";
import "../../styles/register.css";
import { useState } from "react";
import type { Me } from "../../net/keep.ts";
import { useLaterWords } from "../../words/later.ts";
import { useSettingsWords } from "../../words/settings.ts";
import { go } from "../route.ts";
import { SidePage } from "../SidePage.tsx";
import { CurrencyKinds } from "./CurrencyKinds.tsx";
import { Lists } from "./Lists.tsx";
import { ServiceAccounts } from "./ServiceAccounts.tsx";
import { SettingsForm } from "./SettingsForm.tsx";
import { Webhooks } from "./Webhooks.tsx";

/** The house: its name and its rules. */
export function HousePage({ me }: { me: Me }) {
  const words = useSettingsWords();
  const { rampPage } = useLaterWords();
  const [trouble, setTrouble] = useState<Error | null>(null);
  const may = me.mayHold.includes("supervisor");
  return (
    <SidePage
      title={words.title}
      lead={words.lead}
      trouble={trouble}
      keys={
        <>
          <button type="button" className="answer" data-tone="plain" onClick={() => go("/house/starts")}>
            {rampPage.starts}
          </button>
          <button type="button" className="answer" data-tone="plain" onClick={() => go("/house/search")}>
            {rampPage.search}
          </button>
        </>
      }
    >
      <SettingsForm may={may} onTrouble={setTrouble} />
      <CurrencyKinds may={may} onTrouble={setTrouble} />
      {may && <Lists onTrouble={setTrouble} />}
      {may && <ServiceAccounts onTrouble={setTrouble} />}
      {may && <Webhooks onTrouble={setTrouble} />}
    </SidePage>
  );
}

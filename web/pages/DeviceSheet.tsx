import { useState } from "react";
import { useLight, useUnitChoice } from "../net/app.ts";
import { boundedMm, keepMm, keptMm } from "../net/millimetre.ts";
import { LightKey } from "../ui/LightKey.tsx";
import { ScreenEntry } from "../ui/ScreenEntry.tsx";
import { Sheet } from "../ui/Sheet.tsx";
import { UnitsEntry } from "../ui/UnitsEntry.tsx";
import { VersionLine } from "../ui/VersionLine.tsx";
import { useLaterWords } from "../words/later.ts";
import { LanguageKeys } from "./LanguageKeys.tsx";

/** Everything that this device keeps for this person: language, light, units and the size on the screen. */
export function DeviceSheet({ person, onClose }: { person: string; onClose(): void }) {
  const { language, rampPage, screen, units } = useLaterWords();
  const [light, setLight] = useLight();
  const [choice, choose] = useUnitChoice();
  const [mm, setMm] = useState(keptMm);
  return (
    <Sheet title={rampPage.device} onClose={onClose}>
      <section className="options" aria-label={language.title}>
        <h3>{language.title}</h3>
        <LanguageKeys person={person} />
      </section>
      <section className="options" aria-label={rampPage.light}>
        <h3>{rampPage.light}</h3>
        <LightKey light={light} onLight={setLight} />
      </section>
      <section className="options" aria-label={units.title}>
        <h3>{units.title}</h3>
        <UnitsEntry choice={choice} onChoose={choose} />
      </section>
      <section className="options" aria-label={screen.title}>
        <h3>{screen.title}</h3>
        <ScreenEntry
          mm={mm}
          bounded={boundedMm}
          onKeep={(kept) => {
            keepMm(kept);
            setMm(keptMm());
          }}
        />
      </section>
      <VersionLine />
    </Sheet>
  );
}

import { useState } from "react";
import type { Me } from "../../net/keep.ts";
import { usePersonWords } from "../../words/person.ts";
import { useWords } from "../../words/words.ts";
import { SidePage } from "../SidePage.tsx";
import { ChangePin } from "./ChangePin.tsx";
import { Everybody } from "./Everybody.tsx";
import { OwnLapses } from "./OwnLapses.tsx";
import { OwnPasskeys } from "./OwnPasskeys.tsx";
import { OwnSignIns } from "./OwnSignIns.tsx";
import { Training } from "./Training.tsx";

/** The person's own PIN and sign-ins; for the office also the people who may sign in. */
export function PeoplePage({ me, changed }: { me: Me; changed: number }) {
  const words = usePersonWords();
  const { ramp } = useWords().text;
  const [trouble, setTrouble] = useState<Error | null>(null);
  return (
    <SidePage title={words.title} lead={ramp.signedIn(me.name)} trouble={trouble}>
      <OwnLapses onTrouble={setTrouble} />
      <OwnSignIns onTrouble={setTrouble} />
      <ChangePin onTrouble={setTrouble} />
      <OwnPasskeys onTrouble={setTrouble} />
      <Training person={null} onTrouble={setTrouble} />
      {me.mayHold.includes("supervisor") && <Everybody me={me} changed={changed} onTrouble={setTrouble} />}
    </SidePage>
  );
}

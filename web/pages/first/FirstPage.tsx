import "../../styles/house.css";
import "../../styles/register.css";
import { useEffect, useState } from "react";
import { api, forgetSignIn } from "../../net/app.ts";
import { enrol } from "../../net/enrol.ts";
import { type HouseNow, house } from "../../net/house.ts";
import { Trouble } from "../../ui/Trouble.tsx";
import { useHouseWords } from "../../words/house.ts";
import { useWords } from "../../words/words.ts";
import { codeInAddress } from "../devices/codeInAddress.ts";
import { go } from "../route.ts";
import { FirstSupervisor } from "./FirstSupervisor.tsx";

/** The first run of an empty house: this device, then the house's name and its first supervisor. */
export function FirstPage() {
  const words = useHouseWords();
  const { ramp } = useWords().text;
  const [code, setCode] = useState(codeInAddress);
  const [now, setNow] = useState<HouseNow | null>(null);
  const [enrolled, setEnrolled] = useState(false);
  const [trouble, setTrouble] = useState<Error | null>(null);
  const [busy, setBusy] = useState(false);
  useEffect(() => {
    // A link that is opened again on the same device continues where it was left.
    Promise.all([house.now(), api.enrolled()]).then(([is, had]) => {
      setEnrolled(had);
      setNow(is);
    }, setTrouble);
  }, []);
  const begin = () => {
    setBusy(true);
    setTrouble(null);
    enrol(code)
      .then(() => {
        forgetSignIn();
        setEnrolled(true);
      }, setTrouble)
      .finally(() => setBusy(false));
  };
  return (
    <main className="page">
      <header className="page-head">
        <h1>{now?.firstRun === false ? words.over : words.title}</h1>
        <p>{now?.firstRun === false ? words.overWhat : words.lead}</p>
      </header>
      <Trouble of={trouble} />
      {now === null && trouble === null && <p className="empty">{ramp.asking}</p>}
      {now?.firstRun === false && (
        <button type="button" className="answer" data-tone="yes" onClick={() => go("/")}>
          {words.toSignIn}
        </button>
      )}
      {now?.firstRun && !enrolled && (
        <form
          className="register-form first-form"
          onSubmit={(e) => {
            e.preventDefault();
            begin();
          }}
        >
          <h2>{words.deviceTitle}</h2>
          <p>{words.deviceWhat}</p>
          <label className="field">
            <span>{words.code}</span>
            <input
              name="code"
              value={code}
              autoComplete="off"
              autoCapitalize="characters"
              spellCheck={false}
              onChange={(e) => setCode(e.target.value)}
            />
            <span className="field-note">{words.noCode}</span>
          </label>
          <button type="submit" className="answer" data-tone="yes" disabled={busy || code.trim() === ""}>
            {busy ? words.beginning : words.begin}
          </button>
        </form>
      )}
      {now?.firstRun && enrolled && <FirstSupervisor now={now} />}
    </main>
  );
}

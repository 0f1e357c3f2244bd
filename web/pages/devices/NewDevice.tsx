import { type SyntheticEvent, useState } from "react";
import { devices } from "../../net/devices.ts";
import { Qr } from "../../ui/Qr.tsx";

/** Shows a one-time code for one device, to be read off by its camera or typed in. */
export function NewDevice({ onTrouble }: { onTrouble(error: Error): void }) {
  const [name, setName] = useState("");
  const [code, setCode] = useState<string | null>(null);
  const ask = (event: SyntheticEvent) => {
    event.preventDefault();
    void devices.code(name).then((given) => setCode(given.code), onTrouble);
  };
  if (code !== null)
    return (
      <section className="new-device" aria-label="Code for a new device">
        <p>
          On {name}, scan this or open <strong>{location.origin}/enrol</strong> and enter the code. It is good
          for five minutes and once. Show it to nobody else.
        </p>
        <Qr text={`${location.origin}/enrol#${code}`} label={`Enrol with code ${code}`} />
        <code className="enrol-code">{code}</code>
        <button type="button" className="small-key" onClick={() => setCode(null)}>
          Done
        </button>
      </section>
    );
  return (
    <form className="join" onSubmit={ask}>
      <label className="field">
        <span>Name of the new device</span>
        <input value={name} maxLength={60} autoComplete="off" onChange={(e) => setName(e.target.value)} />
      </label>
      <button type="submit" className="answer" data-tone="plain" disabled={name.trim() === ""}>
        Show a code
      </button>
    </form>
  );
}

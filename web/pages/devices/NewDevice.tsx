import { type SyntheticEvent, useState } from "react";
import { devices } from "../../net/devices.ts";
import { Qr } from "../../ui/Qr.tsx";
import { useDeviceWords } from "../../words/devices.ts";

/** Shows a one-time code for one device, to be scanned by its camera or typed in. */
export function NewDevice({ onTrouble }: { onTrouble(error: Error): void }) {
  const words = useDeviceWords();
  const [name, setName] = useState("");
  const [code, setCode] = useState<string | null>(null);
  const ask = (event: SyntheticEvent) => {
    event.preventDefault();
    void devices.code(name).then((given) => setCode(given.code), onTrouble);
  };
  if (code !== null)
    return (
      <section className="new-device" aria-label={words.newCode}>
        <p>{words.scan(name, `${location.origin}/enrol`)}</p>
        <Qr text={`${location.origin}/enrol#${code}`} label={words.withCode(code)} />
        <code className="enrol-code">{code}</code>
        <button type="button" className="small-key" onClick={() => setCode(null)}>
          {words.done}
        </button>
      </section>
    );
  return (
    <form className="join" onSubmit={ask}>
      <label className="field">
        <span>{words.name}</span>
        <input
          name="device"
          value={name}
          maxLength={60}
          autoComplete="off"
          onChange={(e) => setName(e.target.value)}
        />
      </label>
      <button type="submit" className="answer" data-tone="plain" disabled={name.trim() === ""}>
        {words.show}
      </button>
    </form>
  );
}

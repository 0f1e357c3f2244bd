import { useState } from "react";
import type { ChannelMap } from "../../../shared/house/channels.ts";
import { FormKeys } from "../../ui/FormKeys.tsx";
import { useInOutWords } from "../../words/inOut.ts";
import type { GaugePlace } from "./gaugePlaces.ts";

interface Props {
  places: readonly GaugePlace[];
  onKeep(channels: ChannelMap[]): void;
  onLeave(): void;
}

type Entered = Record<string, { channel: string; quality: string }>;

/** Entry of the channel that reads each gauge, in the gauge's own unit, and of what is known of its quality. */
export function ChannelForm({ places, onKeep, onLeave }: Props) {
  const words = useInOutWords();
  const [entered, setEntered] = useState<Entered>(() =>
    Object.fromEntries(
      places.map(({ key, map }) => [key, { channel: map?.channel ?? "", quality: map?.quality ?? "" }]),
    ),
  );
  const set = (key: string, field: "channel" | "quality", value: string) =>
    setEntered((all) => ({ ...all, [key]: { channel: "", quality: "", ...all[key], [field]: value } }));
  const channels = places.flatMap(({ key, gauge, engine }): ChannelMap[] => {
    const channel = entered[key]?.channel.trim() ?? "";
    const quality = entered[key]?.quality.trim() || null;
    return channel === "" ? [] : [{ channel, gauge: gauge.id, engine, unit: gauge.unit, quality }];
  });
  return (
    <form
      className="register-form"
      aria-label={words.change}
      onSubmit={(e) => {
        e.preventDefault();
        onKeep(channels);
      }}
    >
      <p>{words.hint}</p>
      {places.map(({ key, name }) => (
        <fieldset key={key} className="channel-fields">
          <legend>{name}</legend>
          {(["channel", "quality"] as const).map((field) => (
            <label key={field} className="field">
              <span>{words[field]}</span>
              <input
                name={`${field} ${key}`}
                aria-label={field === "channel" ? words.channelOf(name) : words.qualityOf(name)}
                value={entered[key]?.[field] ?? ""}
                maxLength={field === "channel" ? 40 : 80}
                autoComplete="off"
                spellCheck={false}
                onChange={(e) => set(key, field, e.target.value)}
              />
            </label>
          ))}
        </fieldset>
      ))}
      <FormKeys send={words.save} leave={words.leave} ready onLeave={onLeave} />
    </form>
  );
}

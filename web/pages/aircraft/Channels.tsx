import { useEffect, useState } from "react";
import type { ChannelMap } from "../../../shared/house/channels.ts";
import type { AircraftType } from "../../../shared/types/schema.ts";
import { typeIn } from "../../../shared/words/authored.ts";
import { channelRequests } from "../../net/channels.ts";
import { useInOutWords } from "../../words/inOut.ts";
import { useWords } from "../../words/words.ts";
import { ChannelForm } from "./ChannelForm.tsx";
import { gaugePlaces } from "./gaugePlaces.ts";

interface Props {
  aircraft: string;
  /** Null while it is not known: then nothing can be mapped. */
  type: AircraftType | null;
  /** True for a person who may change them. */
  may: boolean;
  /** Rises with every change of the register. */
  changed: number;
  onTrouble(error: Error | null): void;
}

/** The channels of an aircraft's instruments, and the gauge that each one reads. */
export function Channels({ aircraft, type, may, changed, onTrouble }: Props) {
  const words = useInOutWords();
  const { language } = useWords().say;
  const [read, setRead] = useState<{ channels: ChannelMap[]; revision: number } | null>(null);
  const [mapping, setMapping] = useState(false);
  const ask = () => void channelRequests.of(aircraft).then(setRead, onTrouble);
  // biome-ignore lint/correctness/useExhaustiveDependencies: for each change of the register
  useEffect(ask, [aircraft, changed]);
  if (!read || !type) return null;
  const places = gaugePlaces(typeIn(type, language), read.channels, words);
  const mapped = places.filter((p) => p.map !== null);
  const keep = (channels: ChannelMap[]) => {
    onTrouble(null);
    channelRequests.change(aircraft, channels, read.revision).then(() => {
      setMapping(false);
      ask();
    }, onTrouble);
  };
  return (
    <section className="own" aria-label={words.channels}>
      <h2>{words.channels}</h2>
      <p>{words.lead}</p>
      {mapping ? (
        <ChannelForm places={places} onKeep={keep} onLeave={() => setMapping(false)} />
      ) : (
        <>
          {mapped.length === 0 && <p className="empty">{words.none}</p>}
          <ul className="device-rows">
            {mapped.map(({ key, name, map }) => (
              <li key={key}>
                <strong>{name}</strong>
                {/* As somebody entered it, in a language that nobody knows. */}
                <span lang="und">
                  {[map?.channel, map?.unit, map?.quality].filter((w) => w != null).join(", ")}
                </span>
              </li>
            ))}
          </ul>
          {may && (
            <button type="button" className="answer" data-tone="plain" onClick={() => setMapping(true)}>
              {words.change}
            </button>
          )}
        </>
      )}
    </section>
  );
}

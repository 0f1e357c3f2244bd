import { useWords } from "../words/words.ts";

/** Where the aircraft will stand, as entered: empty while not known. */
export interface Stand {
  heading: string;
  elevation: string;
}

export const NO_STAND: Stand = { heading: "", elevation: "" };

/** The figures of a stand that are figures; what is empty or no figure is left out. */
export function standOf({ heading, elevation }: Stand): { headingDeg?: number; elevationFt?: number } {
  const figure = (text: string, least: number, most: number) => {
    const value = text.trim() === "" ? Number.NaN : Number(text);
    return value >= least && value <= most ? value : undefined;
  };
  const headingDeg = figure(heading, 0, 360);
  const elevationFt = figure(elevation, -1500, 20_000);
  return {
    ...(headingDeg === undefined ? {} : { headingDeg }),
    ...(elevationFt === undefined ? {} : { elevationFt }),
  };
}

/** The nose's heading and the field's height: wind and density altitude are told from them. */
export function StandFields({ stand, onStand }: { stand: Stand; onStand(next: Stand): void }) {
  const { planning } = useWords().text;
  return (
    <>
      <label className="field">
        <span>{planning.heading}</span>
        <input
          name="heading"
          inputMode="numeric"
          value={stand.heading}
          maxLength={3}
          placeholder="250"
          onChange={(e) => onStand({ ...stand, heading: e.target.value })}
        />
      </label>
      <label className="field">
        <span>{planning.height}</span>
        <input
          name="elevation"
          inputMode="numeric"
          value={stand.elevation}
          maxLength={6}
          placeholder="320"
          onChange={(e) => onStand({ ...stand, elevation: e.target.value })}
        />
      </label>
    </>
  );
}

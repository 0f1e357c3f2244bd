import { usePlannedWords } from "../words/planned.ts";

/** Heading and elevation of the stand as entered; empty while unknown. */
export interface Stand {
  heading: string;
  elevation: string;
}

export const NO_STAND: Stand = { heading: "", elevation: "" };

/** Returns the valid figures of a stand. Leaves out what is empty or no valid figure. */
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

interface HeadingProps {
  label: string;
  heading: string;
  onHeading(next: string): void;
}

/** The field for the nose's heading, degrees true. */
export function HeadingField({ label, heading, onHeading }: HeadingProps) {
  const { planning } = usePlannedWords();
  return (
    <label className="field">
      <span>{label}</span>
      <input
        name="heading"
        inputMode="numeric"
        value={heading}
        maxLength={3}
        placeholder={planning.optional}
        onChange={(e) => onHeading(e.target.value)}
      />
    </label>
  );
}

/** Fields for the nose's heading and the field's elevation, from which wind and density altitude are calculated. */
export function StandFields({ stand, onStand }: { stand: Stand; onStand(next: Stand): void }) {
  const { planning } = usePlannedWords();
  return (
    <>
      <HeadingField
        label={planning.heading}
        heading={stand.heading}
        onHeading={(heading) => onStand({ ...stand, heading })}
      />
      <label className="field">
        <span>{planning.height}</span>
        <input
          name="elevation"
          inputMode="numeric"
          value={stand.elevation}
          maxLength={6}
          placeholder={planning.optional}
          onChange={(e) => onStand({ ...stand, elevation: e.target.value })}
        />
      </label>
    </>
  );
}

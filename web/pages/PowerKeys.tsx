import { Choice } from "../ui/Choice.tsx";

export type Power = "groundPower" | "batteries";

interface Props {
  label: string;
  power: Power;
  words: Readonly<Record<Power, string>>;
  onPower(power: Power): void;
}

/** Keys for the power source of the start. */
export function PowerKeys({ label, power, words, onPower }: Props) {
  return (
    <Choice
      label={label}
      chosen={power}
      options={(["groundPower", "batteries"] as const).map((is) => ({ is, words: words[is] }))}
      className="option-keys"
      classNameOfKeys="answer"
      onChoose={onPower}
    />
  );
}

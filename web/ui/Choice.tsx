import { Radio } from "@base-ui/react/radio";
import { RadioGroup } from "@base-ui/react/radio-group";
import type { ReactNode } from "react";

interface Option<V extends string> {
  is: V;
  /** What stands on its key. */
  words: ReactNode;
  /** The language of those words, where it is not the page's. */
  lang?: string;
  disabled?: boolean;
}

interface Props<V extends string> {
  /** What is chosen, for who cannot see it. */
  label: string;
  /** Null while nothing is. */
  chosen: V | null;
  options: readonly Option<V>[];
  className: string;
  classNameOfKeys: string;
  onChoose(is: V): void;
}

/** Keys of which one is chosen: one stop of the keyboard, the arrows go from key to key. */
export function Choice<V extends string>({ label, chosen, options, onChoose, ...look }: Props<V>) {
  return (
    <RadioGroup<V | null>
      className={look.className}
      aria-label={label}
      value={chosen}
      onValueChange={(is) => is !== null && onChoose(is)}
    >
      {options.map(({ is, words, ...rest }) => (
        <Radio.Root
          key={is}
          value={is}
          nativeButton
          render={<button type="button" data-tone="plain" />}
          className={look.classNameOfKeys}
          {...rest}
        >
          {words}
        </Radio.Root>
      ))}
    </RadioGroup>
  );
}

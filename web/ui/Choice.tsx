import { Radio } from "@base-ui/react/radio";
import { RadioGroup } from "@base-ui/react/radio-group";
import type { ReactNode } from "react";

interface Option<V extends string> {
  is: V;
  /** Content of the key. */
  words: ReactNode;
  /** Language of the words, when it is not the page's. */
  lang?: string;
  disabled?: boolean;
}

interface Props<V extends string> {
  /** Name of the choice, for screen readers. */
  label: string;
  /** Null while nothing is chosen. */
  chosen: V | null;
  options: readonly Option<V>[];
  className: string;
  classNameOfKeys: string;
  onChoose(is: V): void;
}

/** Keys of which one is chosen. They are one tab stop; the arrow keys move between them. */
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

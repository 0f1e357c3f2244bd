import { useState } from "react";
import { LANGUAGE, LANGUAGES, type Language } from "../../shared/words/language.ts";
import { keep } from "../words/kept.ts";
import { speak, useWords } from "../words/words.ts";

/** The language of this person on this device; each offered in its own words. */
export function LanguageKeys({ person }: { person: string | null }) {
  const { say, text } = useWords();
  const [failed, setFailed] = useState(false);
  const choose = (language: Language) =>
    speak(language).then(
      () => {
        keep(language, person);
        setFailed(false);
      },
      () => setFailed(true),
    );
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset is drawn with a frame that nothing here has
    <div className="option-keys" role="group" aria-label={text.language.title}>
      {LANGUAGES.map((l) => (
        <button
          key={l}
          type="button"
          className="answer"
          data-tone="plain"
          lang={l}
          aria-pressed={l === say.language}
          onClick={() => void choose(l)}
        >
          {LANGUAGE[l].name}
        </button>
      ))}
      {failed && (
        <p className="trouble" role="alert">
          {text.language.failed}
        </p>
      )}
    </div>
  );
}

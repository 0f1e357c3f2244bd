import { useState } from "react";
import { LANGUAGE, LANGUAGES, type Language } from "../../shared/words/language.ts";
import { Choice } from "../ui/Choice.tsx";
import { keep } from "../words/kept.ts";
import { speak, useWords } from "../words/words.ts";

/** Keys for this person's language on this device, each in its own language. */
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
    <div className="language-keys">
      <Choice
        label={text.language.title}
        chosen={say.language}
        options={LANGUAGES.map((l) => ({ is: l, words: LANGUAGE[l].name, lang: l }))}
        className="option-keys"
        classNameOfKeys="answer"
        onChoose={(l) => void choose(l)}
      />
      {failed && (
        <p className="trouble" role="alert">
          {text.language.failed}
        </p>
      )}
    </div>
  );
}

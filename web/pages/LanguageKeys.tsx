import { useState } from "react";
import { LANGUAGE, LANGUAGES, type Language } from "../../shared/words/language.ts";
import { Choice } from "../ui/Choice.tsx";
import { keep } from "../words/kept.ts";
import { useLaterWords } from "../words/later.ts";
import { speak, useWords } from "../words/words.ts";

/** Keys for this person's language on this device, each in its own language. */
export function LanguageKeys({ person }: { person: string | null }) {
  const { say } = useWords();
  const { language } = useLaterWords();
  const [failed, setFailed] = useState(false);
  const choose = (to: Language) =>
    speak(to).then(
      () => {
        keep(to, person);
        setFailed(false);
      },
      () => setFailed(true),
    );
  return (
    <div className="language-keys">
      <Choice
        label={language.title}
        chosen={say.language}
        options={LANGUAGES.map((l) => ({ is: l, words: LANGUAGE[l].name, lang: l }))}
        className="option-keys"
        classNameOfKeys="answer"
        onChoose={(l) => void choose(l)}
      />
      {failed && (
        <p className="trouble" role="alert">
          {language.failed}
        </p>
      )}
    </div>
  );
}

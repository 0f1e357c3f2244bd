import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { expect, it } from "vitest";
import { AuthorsWords, LeftAsWritten } from "../../web/ui/AuthorsWords.tsx";

const drawn = (text: string, left: readonly string[], form?: (t: string) => string) =>
  renderToStaticMarkup(
    createElement(
      LeftAsWritten,
      { value: new Set(left) },
      createElement(AuthorsWords, form ? { text, form } : { text }),
    ),
  );

it("[LNG-14] marks the author's words as English, alone or inside a sentence, and no others", () => {
  expect(drawn("Walk round", ["Walk round"])).toBe('<span lang="en">Walk round</span>');
  expect(drawn("Caliente motor 2: lea oil temperature.", ["Oil temperature", "Oil"])).toBe(
    'Caliente motor 2: lea <span lang="en">oil temperature</span>.',
  );
  expect(drawn("Nariz al viento", ["Walk round"])).toBe("Nariz al viento");
  expect(drawn("Nariz al viento", [])).toBe("Nariz al viento");
  expect(drawn("uno Walk round dos", ["Walk round"], (t) => t.replaceAll(" ", "_"))).toBe(
    'uno_<span lang="en">Walk_round</span>_dos',
  );
});

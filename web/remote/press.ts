import type { Press } from "./keyDoes.ts";

const BUTTONS: ReadonlySet<string> = new Set(["button", "checkbox", "radio", "range", "submit"]);

/** Returns a key event of the page as a press. */
export function pressOf(event: KeyboardEvent): Press {
  return {
    code: event.code,
    key: event.key,
    repeat: event.repeat,
    trusted: event.isTrusted,
    combined: event.ctrlKey || event.altKey || event.metaKey || event.isComposing,
    inField: event.target instanceof HTMLElement && isField(event.target),
  };
}

function isField(element: HTMLElement): boolean {
  if (element instanceof HTMLInputElement) return !BUTTONS.has(element.type);
  return (
    element.isContentEditable ||
    element instanceof HTMLTextAreaElement ||
    element instanceof HTMLSelectElement
  );
}

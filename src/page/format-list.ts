import { visibleText } from "../report/visible-text.ts";

/** Names in a sentence, the first few of many. @example formatList(["a.png", "b.png"]) // "a.png, b.png" */
export function formatList(names: ReadonlyArray<string>, most = 5): string {
  const shown = names.slice(0, most).map((name) => visibleText(name, 80));
  return names.length > most ? `${shown.join(", ")} and ${names.length - most} more` : shown.join(", ");
}

import { firstOf } from "../records/counted.ts";
import { visibleText } from "../report/visible-text.ts";

/** Names in a sentence, the first few of many. @example formatList(["a.png", "b.png"]) // "a.png, b.png" */
export function formatList(names: ReadonlyArray<string>, most = 5): string {
  return firstOf(
    names.map((name) => visibleText(name, 80)),
    most,
  );
}

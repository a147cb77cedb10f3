import type { RowCells } from "./row-cells.ts";
import type { WordChoice } from "./word-choice.ts";

/** Reads a word out of a fixed list; a missing or unknown one is an error that names the list. */
export function readWord<T extends string, K extends string>(
  row: RowCells<K>,
  key: K,
  choice: WordChoice<T>,
): T | undefined {
  const text = row.text(key);
  const found = choice.find(text);
  const expected = `one of: ${choice.answers.join(", ")}`;
  if (found === undefined) {
    const [rule, reason] = text === "" ? ["missing", "is missing"] : ["unknown-word", "is not a known one"];
    return row.say(key, { rule, reason: `the word for ${key} ${reason}`, expected, action: `Use ${expected}` });
  }
  if (found.misspelt) {
    row.say(
      key,
      { rule: "word-spelling", reason: "near enough to a known word", expected, severity: "change" },
      found.answer,
    );
  }
  return found.answer;
}

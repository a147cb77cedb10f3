import type { ColumnReading } from "../records/book.ts";
import type { HarvestFieldKey } from "../records/harvest-field.ts";
import type { Issue } from "../records/issue.ts";
import type { SettingDefinition } from "../records/setting.ts";
import { settingDefinitions } from "../records/setting-definitions.ts";
import { visibleText } from "../report/visible-text.ts";
import { columnAnswerKey } from "./answered-settings.ts";

/** Something the sheets leave to the reader, settled by one setting. */
export interface SheetQuestion {
  /** in settings.csv */
  key: string;
  /** what the setting means */
  meaning: string;
  kind: SettingDefinition["kind"];
  unit: string;
  /** what may be answered; empty where a number or a word has to be typed */
  choices: string[];
  /** open: cells are left out until it is answered; decided: the sheets themselves gave the answer */
  state: "open" | "decided";
  /** cells, or columns for a decided question, that depend on it */
  count: number;
  /** why it is asked, or what decided it */
  reason: string;
  /** columns it is about, with the first few cells as typed */
  columns: string[];
  examples: string[];
}

/** What a column of a harvest sheet most often holds. */
const likelyFields: ReadonlyArray<HarvestFieldKey> = ["inoculum_ml", "fresh_g", "dry_g", "outcome"];

const most = { columns: 6, examples: 4, letters: 60 };

function addOnce(list: string[], text: string, limit: number): void {
  const shown = visibleText(text, most.letters);
  if (text !== "" && list.length < limit && !list.includes(shown)) list.push(shown);
}

/** Asks what a column holds that is not read until it is known. */
function addColumn(
  questions: Map<string, SheetQuestion>,
  { file, header, example = "" }: ColumnReading,
  mayBe: ReadonlyArray<HarvestFieldKey>,
): void {
  const key = columnAnswerKey(file, header);
  questions.set(key, {
    key,
    meaning: `What does the column “${visibleText(header, most.letters)}” hold?`,
    kind: "choice",
    unit: "",
    choices: [...new Set([...mayBe, ...likelyFields, "factor", "unread"])],
    state: "open",
    count: 0,
    reason: "its name does not say it",
    columns: [visibleText(header, most.letters)],
    examples: example === "" ? [] : [visibleText(example, most.letters)],
  });
}

/**
 * What one answer would settle: cells left out because they can be read in two ways, and columns whose reading the sheets
 * decided. Open questions come first, then those that touch most.
 */
export function sheetQuestions(issues: Iterable<Issue>, columns: ReadonlyArray<ColumnReading> = []): SheetQuestion[] {
  const questions = new Map<string, SheetQuestion>();
  for (const column of columns) if (column.mayBe !== undefined) addColumn(questions, column, column.mayBe);
  for (const { setting, severity, result, reason, column, raw } of issues) {
    if (setting === undefined) continue;
    const isOpen = (severity === "warning" || severity === "error") && result === "";
    const isDecided = severity === "note";
    const definition = settingDefinitions.find(({ key }) => key === setting);
    if (definition === undefined || !(isOpen || isDecided)) continue;
    const before = questions.get(setting);
    // an open question says more than a reading that was decided elsewhere
    if (before !== undefined && before.state === "open" && !isOpen) continue;
    let question = before;
    if (question === undefined || (question.state === "decided" && isOpen)) {
      const { key, meaning, kind, unit, choices = [] } = definition;
      question = {
        ...{ key, meaning, kind, unit, choices: [...choices], state: isOpen ? "open" : "decided" },
        ...{ count: 0, reason, columns: [], examples: [] },
      };
      questions.set(setting, question);
    }
    question.count++;
    addOnce(question.columns, column, most.columns);
    if (isOpen) addOnce(question.examples, raw, most.examples);
  }
  return [...questions.values()].sort(
    (a, b) => Number(a.state === "decided") - Number(b.state === "decided") || b.count - a.count,
  );
}

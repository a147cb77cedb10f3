import type { ColumnReading } from "../records/book.ts";
import { fileName } from "../records/file-stem.ts";
import { type HarvestFieldKey, isHarvestFieldKey } from "../records/harvest-field.ts";
import type { Issue } from "../records/issue.ts";
import type { SettingDefinition } from "../records/setting.ts";
import { settingDefinitions } from "../records/setting-definitions.ts";
import { outcomes } from "../records/tray.ts";
import type { UnreadMoney } from "../records/unread-money.ts";
import { visibleText } from "../report/visible-text.ts";
import { cellAnswerKey, columnAnswerKey, sheetAnswerKey } from "./answered-settings.ts";

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
  /** open: cells are left out until it is answered; decided: the sheets gave the answer, or a usual limit flags cells */
  state: "open" | "decided";
  /** cells, or columns for a decided question, that depend on it */
  count: number;
  /** why it is asked, or what decided it */
  reason: string;
  /** what a cell asked about by itself has to hold; "" where the choices say it */
  expected: string;
  /** columns it is about, with the first few cells as typed */
  columns: string[];
  examples: string[];
}

/** Settings that are asked for each sheet by itself. */
const ofOneSheet: ReadonlySet<string> = new Set(["sheet_role", "first_year"]);

/** What a column of a harvest sheet most often holds. */
const likelyFields: ReadonlyArray<HarvestFieldKey> = ["inoculum_ml", "fresh_g", "dry_g", "outcome"];

const most = { columns: 6, examples: 4, letters: 60, cells: 40 };

function addOnce(list: string[], text: string, limit: number): void {
  const shown = visibleText(text, most.letters);
  if (text !== "" && list.length < limit && !list.includes(shown)) list.push(shown);
}

/** Asks what a column holds that is not read until it is known, or whose reading may be changed. */
function addColumn(
  questions: Map<string, SheetQuestion>,
  { file, header, example = "" }: ColumnReading,
  mayBe: ReadonlyArray<HarvestFieldKey>,
  { state, reason }: Pick<SheetQuestion, "state" | "reason"> = { state: "open", reason: "its name does not say it" },
): void {
  const key = columnAnswerKey(file, header);
  questions.set(key, {
    key,
    meaning: `What does the column “${visibleText(header, most.letters)}” hold?`,
    kind: "choice",
    unit: "",
    choices: [...new Set([...mayBe, ...likelyFields, "factor", "unread"])],
    state,
    count: 0,
    reason,
    expected: "",
    columns: [visibleText(header, most.letters)],
    examples: example === "" ? [] : [visibleText(example, most.letters)],
  });
}

/** Columns whose reading the log says how to change: passed through, or taken for a field for want of another. */
function addReadColumns(
  questions: Map<string, SheetQuestion>,
  issues: ReadonlyArray<Issue>,
  columns: ReadonlyArray<ColumnReading>,
): void {
  let asked = 0;
  for (const { file, row, column, severity, reason, action } of issues) {
    if (severity !== "note" || row !== 0 || column === "" || !action.includes("columns.csv")) continue;
    const reading = columns.find((one) => one.file === file && one.header === column);
    if (reading === undefined || questions.has(columnAnswerKey(file, column)) || asked++ >= most.cells) continue;
    const named = action.split(/[^a-z_]+/).filter(isHarvestFieldKey);
    addColumn(questions, reading, named, { state: "decided", reason });
  }
}

/** Rules whose cell cannot be typed by itself: the row, or the trays it stands for, is in doubt. */
const notOfOneCell: ReadonlySet<string> = new Set([
  ...["shifted-row", "long-row", "row-without-tray", "merged-result", "blank-tray-cells"],
  ...["cell-answer-without-place", "no-such-cell", "money-by-remark", "two-columns-for-one", "missing-column"],
  ...["tray-number-missing", "unread-column", "name-of-several-trays"],
]);
/** Rules about two rows of one name, which a name of its own for one of them settles. */
const settledByName: ReadonlySet<string> = new Set(["conflict"]);
/** Rules about another cell that the tray's outcome settles. */
const settledByOutcome: ReadonlySet<string> = new Set([
  "weight-of-lost-tray",
  "outcome-contradiction",
  "answered-apart",
]);
/** Rules that use what they found, and would use a number typed instead of it. */
const betterTyped: ReadonlySet<string> = new Set(["bounds", "flush-without-weight", "flush-total-disagrees"]);

/** The key of the question about the cell that an entry of the log is about, or about its tray's outcome. */
export function cellQuestionKey(issue: Issue, columns: ReadonlyArray<ColumnReading>): string {
  const headerOf = (wanted: string): string | undefined =>
    columns.find(({ file, field }) => file === issue.file && field === wanted)?.header;
  const ofOutcome = headerOf("outcome");
  const named = settledByName.has(issue.rule) ? headerOf("tray_id") : undefined;
  const own = named ?? (settledByOutcome.has(issue.rule) ? "" : issue.column);
  return cellAnswerKey({ ...issue, column: own || (ofOutcome ?? "outcome") });
}

/** Asks what stands in single cells of harvest sheets, costs and products that no setting or column can settle, and what became of trays. */
function addCells(
  questions: Map<string, SheetQuestion>,
  issues: ReadonlyArray<Issue>,
  columns: ReadonlyArray<ColumnReading>,
  unread: ReadonlyArray<UnreadMoney>,
): void {
  const files = new Set([...columns, ...unread.map(({ source }) => source)].map(({ file }) => file));
  const waiting = new Set(
    columns.filter(({ mayBe }) => mayBe !== undefined).map(({ file, header }) => `${file}\t${header}`),
  );
  const trays = new Set<string>();
  let asked = 0;
  for (const issue of issues) {
    const { file, row, tray = "", column, raw, result, reason, expected, setting, severity, rule } = issue;
    if (row === 0 || setting !== undefined || !files.has(file) || notOfOneCell.has(rule)) continue;
    if (severity !== "warning" && severity !== "error") continue;
    const isEnding = settledByOutcome.has(rule) || expected.startsWith(`${outcomes.slice(0, -1).join(", ")} or `);
    const isOpen = isEnding
      ? !followsFromOther.has(rule) || !trays.has(`${file}\t${tray}`)
      : (result === "" || betterTyped.has(rule)) && column !== "";
    if (!isOpen || waiting.has(`${file}\t${column}`)) continue;
    trays.add(`${file}\t${tray}`);
    const key = cellQuestionKey(issue, columns);
    if (questions.has(key) || asked++ >= most.cells) continue;
    const listed = isEnding ? outcomes : (/^one of: (.+)$/.exec(expected)?.[1]?.split(", ") ?? []);
    const item = unread.find(({ source }) => source.file === file && source.row === row)?.name ?? "";
    const named = tray === "" ? item : `tray ${tray}`;
    const where = `${visibleText(fileName(file), most.letters)}, row ${row}${named === "" ? "" : `, ${visibleText(named, most.letters)}`}`;
    questions.set(key, {
      key,
      meaning: isEnding
        ? `What became of the tray? (${where})`
        : settledByName.has(rule)
          ? `What is this tray called, if it is not the tray of the other row? (${where})`
          : `What should “${visibleText(column, most.letters)}” say? (${where})`,
      kind: listed.length > 0 ? "choice" : "text",
      unit: "",
      choices: [...listed],
      state: result === "" || isEnding ? "open" : "decided",
      count: 0,
      reason,
      expected: listed.length > 0 ? "" : expected,
      columns: column === "" ? [] : [visibleText(column, most.letters)],
      examples: raw === "" ? [] : [visibleText(raw, most.letters)],
    });
  }
}

/** Rules that only say what another question about the same tray leaves open. */
const followsFromOther: ReadonlySet<string> = new Set(["weight-not-known", "ending-not-read", "growing-with-weight"]);

/**
 * What one answer would settle: cells left out because they can be read in two ways, columns whose reading the sheets
 * decided, and the limits by which cells are flagged. Open questions come first, then those that touch most.
 * @param unread rows of costs and products that are left out or doubtful
 */
export function sheetQuestions(
  issues: ReadonlyArray<Issue>,
  columns: ReadonlyArray<ColumnReading> = [],
  unread: ReadonlyArray<UnreadMoney> = [],
): SheetQuestion[] {
  const questions = new Map<string, SheetQuestion>();
  for (const column of columns) if (column.mayBe !== undefined) addColumn(questions, column, column.mayBe);
  for (const { setting, severity, result, reason, column, raw, file } of issues) {
    if (setting === undefined) continue;
    const isOpen = (severity === "warning" || severity === "error") && result === "";
    const isDecided = severity === "note" || (severity !== "change" && result !== "");
    const definition = settingDefinitions.find(({ key }) => key === setting);
    if (definition === undefined || !(isOpen || isDecided)) continue;
    const key = ofOneSheet.has(setting) ? sheetAnswerKey(setting, file) : setting;
    const before = questions.get(key);
    // an open question says more than a reading that was decided elsewhere
    if (before !== undefined && before.state === "open" && !isOpen) continue;
    let question = before;
    if (question === undefined || (question.state === "decided" && isOpen)) {
      const { kind, unit, choices = [] } = definition;
      const name = visibleText(file, most.letters);
      const meaning =
        setting === "sheet_role"
          ? `What is ${name} for?`
          : setting === "first_year"
            ? `In which year is the first date of ${name}?`
            : definition.meaning;
      question = {
        ...{ key, meaning, kind, unit, choices: [...choices], state: isOpen ? "open" : "decided" },
        ...{ count: 0, reason, expected: "", columns: [], examples: [] },
      };
      questions.set(key, question);
    }
    question.count++;
    addOnce(question.columns, column, most.columns);
    if (isOpen) addOnce(question.examples, raw, most.examples);
  }
  addCells(questions, issues, columns, unread);
  addReadColumns(questions, issues, columns);
  return [...questions.values()].sort(
    (a, b) => Number(a.state === "decided") - Number(b.state === "decided") || b.count - a.count,
  );
}

import { describe, expect, test } from "vitest";
import { cleanBook } from "../../src/cleaning/clean-book.ts";
import { columnAnswerKey, sheetAnswerKey, withAnsweredSettings } from "../../src/engine/answered-settings.ts";
import { cellQuestionKey, type SheetQuestion } from "../../src/engine/sheet-questions.ts";
import { summariseCleaning } from "../../src/page/worker/cleaned-summary.ts";
import type { Book } from "../../src/records/book.ts";
import { type IssueGroup, issueGroups } from "../../src/records/issue-groups.ts";
import type { SheetSource } from "../../src/records/sheet.ts";
import { sheet } from "../cleaning/book-of.ts";
import { cases } from "../cleaning/remedy-cases.ts";

const head = "Tray,LC ml,Inoculated,Harvested,Fresh g,Dry g,Outcome";
const usual = [0, 1, 2, 3, 4, 5, 6, 7].map((at) => `T${at},10,2026-01-05,2026-02-20,${200 + at},20,good`);
const flagged: [string, string][] = [
  ["an unusual weight", "T9,10,2026-01-05,2026-02-20,420,42,good"],
  ["an unusual drying ratio", "T9,10,2026-01-05,2026-02-20,205,11,good"],
  ["an early harvest", "T9,10,2026-01-05,2026-01-09,205,20,good"],
].map(([what, line]) => [what!, `${[head, ...usual, line].join("\n")}\n`]);

const sourcesOf = (files: Readonly<Record<string, string>>): SheetSource[] =>
  Object.entries(files).map(([path, text]) => sheet(path, text));

/** What the questions that a group of the log is about are called. */
const keysOf = ({ setting = "", files, columns: named, examples }: IssueGroup, { columns }: Book): string[] => [
  setting,
  ...files.flatMap((file) => [sheetAnswerKey(setting, file), ...named.map((column) => columnAnswerKey(file, column))]),
  ...examples.map((issue) => cellQuestionKey(issue, columns)),
];

async function shown(sources: SheetSource[]) {
  const book = await cleanBook(sources);
  const { groups, questions } = summariseCleaning(book, sources);
  return {
    book,
    questions,
    entries: issueGroups(book.issues).map((entry, at) => ({ ...entry, says: groups[at]!.action })),
  };
}

const open = ({ issues }: Book): number =>
  issues.filter(({ severity }) => severity !== "note" && severity !== "change").length;

const typed: Readonly<Record<string, string>> = { syringe_ml: "12", currency: "USD", first_year: "2026" };
const answersTo = ({ key, choices, examples, columns: [column = ""] }: SheetQuestion): string[] => {
  if (choices.length > 0) return choices;
  // what the product's name says, and no discount
  if (/pack_g|discount/.test(column)) return ["30", "0"];
  const isDate = /\d{4}-|Mar|day/.test(examples[0] ?? "");
  return [
    typed[key.split("\t")[0]!] ?? (isDate ? "2026-03-03" : /dry/i.test(column) ? "23 g" : "231 g"),
    /fee/i.test(column) ? "6 %" : column === "cost" ? "50 €" : "50",
  ];
};

/** Answers every question in turn as it helps most. @returns complaints left */
async function answeredWell(
  files: Readonly<Record<string, string>>,
  asked: ReadonlyArray<SheetQuestion>,
): Promise<number> {
  const given: (readonly [string, string])[] = [];
  let least = Infinity;
  for (const question of asked) {
    const found: { left: number; answer: string }[] = [];
    for (const answer of answersTo(question)) {
      const all = [...given, [question.key, answer] as const];
      found.push({ left: open(await cleanBook((await withAnsweredSettings(sourcesOf(files), all)).sources)), answer });
    }
    const best = found.reduce((a, b) => (b.left < a.left ? b : a));
    least = Math.min(least, best.left);
    given.push([question.key, best.answer]);
  }
  return least;
}

test.each([
  [flagged[0]![1], "weight-unusual", "outlier_z", "50"],
  [flagged[1]![1], "drying-ratio-range", "drying_ratio_high", "40"],
  [flagged[2]![1], "duration-range", "harvest_days_low", "3"],
])("a limit that flags a cell is changed by its question: %#", async (text, rule, key, value) => {
  const sources = sourcesOf({ "a.csv": text });
  const { questions, entries } = await shown(sources);
  expect(entries.find((entry) => entry.rule === rule)?.says).not.toMatch(/Answer it|settings\.csv/);
  expect(questions.find((question) => question.key === key)?.state).toBe("decided");
  const { sources: answered } = await withAnsweredSettings(sources, [[key, value]]);
  expect((await cleanBook(answered)).issues.filter((issue) => issue.rule === rule)).toEqual([]);
});

test("a column that is passed through can be given its field by a question", async () => {
  const sources = sourcesOf({ "a.csv": "Tray,LC ml,Fresh g,Heap\nT1,10,205,21\nT2,15,231,23\n" });
  const { questions, entries } = await shown(sources);
  expect(entries.find(({ rule }) => rule === "free-column")?.says).toBe(
    "Change it under “Questions to you” if it is wrong",
  );
  const question = questions.find(({ key }) => key === columnAnswerKey("a.csv", "Heap"))!;
  expect(question.state).toBe("decided");
  const { sources: answered } = await withAnsweredSettings(sources, [[question.key, "dry_g"]]);
  expect((await cleanBook(answered)).trays.map(({ dryGrams }) => dryGrams)).toEqual([21, 23]);
});

/** What only the sheet itself, or the line of the book's own sheets that is wrong, can be mended in. */
const mendedInTheSheet: ReadonlySet<string> = new Set([
  // where cells or rows of the file itself are not where they belong
  ...["no-header", "shifted-row", "long-row", "all-rows-short", "unclosed-quote", "unread-delimiter"],
  ...["all-rows-long", "weights-all-small", "no-harvest-sheet-found"],
  // names of columns, which every other row hangs on
  ...["column-used-twice", "nameless-column", "missing-column", "two-columns-for-one"],
  // a line too many, or one that names what is not there
  ...["second-settings", "setting-for-one-sheet", "unknown-setting", "unknown-field", "unknown-unit", "pinned-twice"],
  ...["unread-column", "no-such-cell", "cell-answer-without-place", "item-twice", "product-twice"],
  // where another row has to be mended
  ...["part-of-tray", "corrected-by-another-note", "no-start-of-name", "name-of-several-trays"],
  // what is used as it stands, or said in a remark as well
  ...["approximate", "weight-of-more", "flush-total-disagrees", "loss-in-remark"],
  ...["doubt-beside-rows", "money-by-remark", "rows-above-names"],
]);

describe("what the page's log says to answer is asked; each rule that asks has the answer that settles it, or is mended in the sheet", () => {
  const all = [...cases.map(([what, sheets]) => [what, sheets] as const), ...flagged];
  test.each(all.map(([rule, sheets]) => ({ rule, sheets })))("$rule", async ({ rule, sheets }) => {
    const files = typeof sheets === "string" ? { "a.csv": sheets } : sheets;
    const { questions, entries, book } = await shown(sourcesOf(files));
    const asked = questions.filter(({ state }) => state === "open");
    for (const entry of entries) {
      const { says, columns } = entry;
      if (!mendedInTheSheet.has(rule)) expect(says).not.toMatch(/\bstate \w+[^.]*settings\.csv/i);
      if (!says.includes("“Questions to you”")) continue;
      const own = questions.filter(({ key }) => keysOf(entry, book).includes(key));
      const ofColumns = columns.length === 0 ? asked.filter(({ key }) => key.startsWith("column:")) : [];
      expect([...own, ...ofColumns].length, `${entry.rule}: ${says}`).toBeGreaterThan(0);
    }
    const complaints = ({ issues }: Book): number =>
      issues.filter((issue) => issue.rule === rule && (issue.severity === "error" || issue.severity === "warning"))
        .length;
    let [isSettled, helps] = [false, asked.length === 0];
    for (const question of questions) {
      for (const answer of isSettled && helps ? [] : answersTo(question)) {
        const { sources } = await withAnsweredSettings(sourcesOf(files), [[question.key, answer]]);
        const answered = await cleanBook(sources);
        isSettled ||= complaints(answered) < complaints(book);
        helps ||= question.state === "open" && open(answered) < open(book);
      }
    }
    helps ||= (await answeredWell(files, asked)) < open(book);
    expect(helps, asked.map(({ key }) => key).join(", ")).toBe(true);
    if (complaints(book) > 0) expect(isSettled).toBe(!mendedInTheSheet.has(rule));
  });
});

import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { cleanBook } from "../../src/cleaning/clean-book.ts";
import { withAnsweredSettings } from "../../src/engine/answered-settings.ts";
import { sheetQuestions } from "../../src/engine/sheet-questions.ts";
import type { Book } from "../../src/records/book.ts";
import type { Issue } from "../../src/records/issue.ts";
import { bookOf, sheet } from "./book-of.ts";
import { cases, type Files, type Remedy } from "./remedy-cases.ts";

const isOpen = ({ severity }: Issue): boolean => severity === "error" || severity === "warning";
const complaints = (book: Book, rule: string): Issue[] =>
  book.issues.filter((issue) => issue.rule === rule && isOpen(issue));
const filesOf = (sheets: string | Files): Files => (typeof sheets === "string" ? { "a.csv": sheets } : sheets);

async function done(files: Files, remedy: Remedy, { action, setting: key }: Issue, book: Book): Promise<Book> {
  if (remedy === "setting") {
    const stated = new RegExp(`${key} = ([a-z]+(?: [a-z]+)?)(?= in| with|,| or|$)`).exec(action)?.[1];
    const first = stated ?? /\(([^(),]+)(?:,|\))/.exec(action)?.[1];
    expect(first, action).toBeDefined();
    return bookOf({ ...files, "settings.csv": `key,value\n${key},${first}\n` });
  }
  if (remedy === "pins") {
    const block = /^file,header,field.*/ms.exec(action)?.[0];
    const line = /add the line (.+?) (?:\(or |to columns\.csv)/i.exec(action)?.[1];
    expect(block ?? line, action).toBeDefined();
    return bookOf({ ...files, "columns.csv": block ?? `file,header,field,unit\n${line}\n` });
  }
  if ("length" in remedy) {
    const [find, by] = remedy;
    const mended = Object.entries(files).map(([path, text]) => [path, text.replace(find, by)] as const);
    expect(mended.some(([path, text]) => text !== files[path])).toBe(true);
    return bookOf(Object.fromEntries(mended));
  }
  if ("files" in remedy) {
    const kept = Object.entries({ ...files, ...remedy.files }).filter(([, text]) => text !== "");
    return bookOf(Object.fromEntries(kept));
  }
  const asked = sheetQuestions(book.issues, book.columns).filter(({ key: one }) => one.startsWith("cell:"));
  const given = asked
    .filter(({ choices }) => ("ending" in remedy ? choices.length > 0 : choices.length === 0))
    .map(({ key: one, choices }) => [one, "ending" in remedy ? choices[0]! : remedy.cell] as const);
  expect(given.length, "the page asks of the cell").toBeGreaterThan(0);
  const sources = Object.entries(files).map(([path, text]) => sheet(path, text));
  return cleanBook((await withAnsweredSettings(sources, given)).sources);
}

describe("every remedy, done as it is printed, ends the complaint", () => {
  test.each(cases.map(([rule, sheets, ...remedies]) => ({ rule, sheets, remedies })))(
    "$rule",
    async ({ rule, sheets, remedies }) => {
      const files = filesOf(sheets);
      const book = await bookOf(files);
      const [issue] = complaints(book, rule);
      expect(issue, book.issues.map((one) => `${one.severity} ${one.rule}`).join(", ")).toBeDefined();
      expect(issue!.action).not.toBe("");
      for (const remedy of remedies) {
        const mended = await done(files, remedy, issue!, book);
        expect(complaints(mended, rule), JSON.stringify(remedy)).toEqual([]);
      }
    },
  );
});

/** Rules whose remedy lies outside the sheets' text: the file's encoding, the tabs and pinned notes of a workbook, a fault of ours; or rules that only say a change. */
const elsewhere = new Set([
  "outcome-word",
  "serial-date",
  "damaged-text",
  "tab-not-read",
  "note-on-cell",
  "no-such-sheet",
  "merged-result",
  "rows-lost",
]);

test("every rule that the sources let print a remedy has its case", () => {
  const root = fileURLToPath(new URL("../../src/", import.meta.url));
  const names = ["csv", "cleaning"].flatMap((room) =>
    readdirSync(`${root}${room}`, { recursive: true, encoding: "utf8" })
      .filter((name) => name.endsWith(".ts"))
      .map((name) => `${root}${room}/${name}`),
  );
  const found = new Set<string>();
  for (const name of names) {
    const text = readFileSync(name, "utf8");
    for (const match of text.matchAll(/\brule: "([a-z-]+)"|\basked\(\s*"([a-z-]+)"/g)) {
      const rest = text.slice(match.index + match[0].length).split(/\brule: "|\basked\(/)[0]!;
      const doubts = match[2] !== undefined || /severity: "(?:error|warning)"/.test(rest.slice(0, 600));
      if (doubts && (match[2] !== undefined || /\baction\b(?!: "")/.test(rest.slice(0, 900))))
        found.add(match[1] ?? match[2]!);
    }
  }
  const covered = new Set([...cases.map(([rule]) => rule), ...elsewhere]);
  expect(found.size).toBeGreaterThan(40);
  expect([...found].filter((rule) => !covered.has(rule)).sort()).toEqual([]);
});

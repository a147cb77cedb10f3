import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import type { Book } from "../../src/records/book.ts";
import type { Issue } from "../../src/records/issue.ts";
import { settingDefinitions } from "../../src/records/setting-definitions.ts";
import { bookOf } from "./book-of.ts";

const page = readFileSync(new URL("../../docs/reading.md", import.meta.url), "utf8");

interface Row {
  kind: string;
  text: string;
  gives: string;
  undo: { key: string; value: string } | undefined;
}

const rows: Row[] = page
  .split("\n")
  .filter((line) => line.startsWith("| ") && line.includes(" / "))
  .map((line) => {
    const [kind, such, gives, , undone] = line
      .slice(2, -1)
      .split(" | ")
      .map((cell) => cell.trim());
    const undo = /^`(\w+)` = ([a-z ]+)/.exec(undone ?? "");
    return {
      kind: kind!,
      text: `${such!.replaceAll("`", "").split(" / ").join("\n")}\n`,
      gives: gives!,
      undo: undo === null ? undefined : { key: undo[1]!, value: undo[2]!.trim() },
    };
  });

const worst = ({ issues }: Book): Issue["severity"] | undefined =>
  (["error", "warning"] as const).find((severity) => issues.some((issue) => issue.severity === severity));

function givesOf(book: Book): string {
  if (book.trays.length === 0 && worst(book) === undefined) return "left out";
  return { error: "error", warning: "asked", note: "read", change: "read" }[worst(book) ?? "note"];
}

/** What of a book follows from how its sheet lies. */
const shapeOf = ({ trays, leftOut, issues }: Book): string =>
  JSON.stringify([
    trays.map(({ file: _file, row: _row, sources: _sources, ...facts }) => facts),
    leftOut.length,
    issues.map(({ rule }) => rule),
  ]);

describe("the table of kinds in docs/reading.md", () => {
  test("has its rows", () => expect(rows.length).toBeGreaterThan(28));

  test.each(rows)("$kind: $gives", async ({ text, gives, undo }) => {
    const book = await bookOf({ "spring.csv": text });
    expect(givesOf(book), book.issues.map(({ severity, rule }) => `${severity} ${rule}`).join(", ")).toBe(gives);
    if (gives === "read") expect(book.trays.length).toBeGreaterThan(1);
    if (undo === undefined) return;
    expect(settingDefinitions.find(({ key }) => key === undo.key)?.choices).toContain(undo.value);
    const undone = await bookOf({ "spring.csv": text, "settings.csv": `key,value\n${undo.key},${undo.value}\n` });
    expect(undone.issues.filter(({ file, severity }) => file === "settings.csv" && severity === "error")).toEqual([]);
    expect(shapeOf(undone)).not.toBe(shapeOf(book));
  });
});

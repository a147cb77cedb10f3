import { describe, expect, test } from "vitest";
import { whatDoesAGoodGramCost } from "../../analyses/costs/what-does-a-good-gram-cost.ts";
import { analyses } from "../../analyses/index.ts";
import { cleanBook } from "../../src/cleaning/clean-book.ts";
import {
  compareRuns,
  describeChanges,
  parseSnapshot,
  type RunSnapshot,
  snapshotOf,
  snapshotText,
} from "../../src/engine/compare-runs.ts";
import { runsOfNames } from "../../src/engine/runs-of-names.ts";
import { costSheet, harvestSheet } from "../cli/small-book.ts";
import { answerQuestions } from "./answer-questions.ts";
import { sheetSources } from "./demo-answers.ts";

async function run(sheets: Record<string, string>): Promise<RunSnapshot> {
  const book = await cleanBook(sheetSources(sheets), { name: "book" });
  return snapshotOf(book, answerQuestions(book, analyses));
}

const base = { "harvests/a.csv": harvestSheet(), "costs.csv": costSheet(46) };

test("a run compared with itself shows nothing, also through its file", async () => {
  const snapshot = await run(base);
  const text = snapshotText(snapshot);
  const read = parseSnapshot(text)!;
  expect(JSON.stringify(read)).toBe(JSON.stringify(snapshot));
  expect(text.match(/^\["T0/gm)).toHaveLength(16);
  expect(compareRuns(snapshot, read)).toEqual({ changes: [], moves: [] });
  expect(describeChanges(compareRuns(snapshot, read))).toEqual([]);
});

test("a price that changed moves answers about money and no others", async () => {
  const [before, after] = [await run(base), await run({ ...base, "costs.csv": costSheet(52) })];
  const { changes, moves } = compareRuns(before, after);
  expect(changes).toEqual([{ where: "costs", text: "filter bag: pack price 46 → 52" }]);
  const gram = moves.find(({ question }) => question === whatDoesAGoodGramCost.question)!;
  expect(gram.kind).toBe("numbers");
  expect(gram.because).toEqual(changes);
  expect(gram.estimates.every((estimate) => estimate.after > estimate.before)).toBe(true);
  expect(moves.map(({ question }) => question).join(" ")).not.toMatch(/yield\?/);
  expect(describeChanges({ changes, moves }).join("\n")).toMatch(/because of: filter bag: pack price 46 → 52/);
});

test("new, lost and changed trays are named", async () => {
  const before = await run(base);
  const more = compareRuns(before, await run({ ...base, "harvests/a.csv": harvestSheet(24) }));
  expect(more.changes.map(({ text }) => text)).toEqual(["new trays T017 to T024"]);
  const fewer = compareRuns(await run({ ...base, "harvests/a.csv": harvestSheet(17) }), before);
  expect(fewer.changes.map(({ text }) => text)).toEqual(["tray no longer there: T017"]);
  const mended = compareRuns(
    before,
    await run({ ...base, "harvests/a.csv": harvestSheet().replace(",18.0\n", ",28.5\n") }),
  );
  expect(mended.changes.map(({ text }) => text)).toEqual(["tray T001: dry grams 18 → 28.5"]);
  expect(mended.moves.map(({ question }) => question).join(" ")).toMatch(/yield\?/);
});

test("settings, products and whole sheets", async () => {
  const before = await run(base);
  const settings = compareRuns(
    before,
    await run({ ...base, "settings.csv": "key,value\ncurrency,USD\ngrain_moisture,14\n" }),
  );
  expect(settings.changes.map(({ text }) => text)).toEqual(["currency nothing → USD", "grain moisture nothing → 0.14"]);
  const products = compareRuns(
    before,
    await run({ ...base, "products.csv": "product,form,channel,grams,current_price\npowder,powder,shop,30,19.9\n" }),
  );
  expect(products.changes.map(({ text }) => text)).toEqual(["new product powder (shop)"]);
  const without = compareRuns(before, await run({ "harvests/a.csv": harvestSheet() }));
  expect(without.changes.map(({ text }) => text)).toEqual([
    "cost line sorghum no longer there",
    "cost line filter bag no longer there",
  ]);
  expect(without.moves.find(({ question }) => question === whatDoesAGoodGramCost.question)?.after?.certainty).toBe(
    "cannot tell",
  );
});

test("names that objects have of their own are names like any other", async () => {
  const odd = (dry: string) =>
    `tray_id,inoculum_ml,dry_g,outcome,constructor\n__proto__,3,${dry},good,a\nconstructor,9,5,good,b\ntoString,3,6,good,c\n`;
  const { changes } = compareRuns(await run({ "a.csv": odd("4") }), await run({ "a.csv": odd("4.5") }));
  expect(changes.map(({ text }) => text)).toEqual(["tray __proto__: dry grams 4 → 4.5"]);
});

describe("a file that is no snapshot", () => {
  test.each(["", "{", "null", "[]", '{"format":"something else"}'])("%j gives nothing to compare with", (text) =>
    expect(parseSnapshot(text)).toBeUndefined(),
  );
});

describe("consecutive names are drawn together", () => {
  test.each([
    [["C9-001", "C9-002", "C9-003", "x"], "C9-001 to C9-003, x"],
    [["9", "10", "11"], "9 to 11"],
    [["A09", "A10"], "A09, A10"],
    [["A9", "B10"], "A9, B10"],
    [["a", "c", "e", "g", "i", "k", "m", "o"], "a, c, e, g, i, k and 2 more"],
    [[], ""],
  ])("%j", (names, expected) => expect(runsOfNames(names)).toBe(expected));
});

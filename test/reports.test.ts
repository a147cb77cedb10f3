import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { issuesCsv } from "../src/cleaning/issues-csv.ts";
import { readBookFolder } from "../src/cli/read-book-folder.ts";
import { finishedCooks, readingsWith } from "../src/engine/book-readings.ts";
import { snapshotOf, snapshotText } from "../src/engine/compare-runs.ts";
import { runBook } from "../src/engine/run-book.ts";

const root = fileURLToPath(new URL("..", import.meta.url));
const committed = (name: string): string => readFileSync(join(root, "reports", name), "utf8");

// in this process, so that a fault switched on here shows; that the built program writes the same is looked at in test/cli
test("the committed answers and log of the demo book are what its sheets give today", async () => {
  const { name, sheets } = readBookFolder(join(root, "data-samples", "demo-book"));
  const { book, answers } = await runBook(sheets, {
    name,
    cleaned: (cleaned) => {
      cleaned.readings = readingsWith([], finishedCooks(cleaned.trays));
    },
  });
  const howTo = "run npm start and read what moved";
  const text = snapshotText(snapshotOf(book, answers));
  expect(text, howTo).toBe(committed("demo-book-answers.json"));
  expect(issuesCsv(book.issues), howTo).toBe(committed("demo-book-log.csv"));
});

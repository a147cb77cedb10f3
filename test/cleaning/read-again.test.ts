import { expect, test } from "vitest";
import { cleanedHarvestCsv } from "../../src/cleaning/cleaned-harvest-csv.ts";
import { judgeMutant } from "../layouts/judge-reading.ts";
import { allFacts, bookOf } from "./book-of.ts";

test("a book without a varied column or a result is an error with lines to paste; growing trays are none", async () => {
  const odd = await bookOf({ "spring.csv": "Thing,Squirt,Stuff\nQ1,10,205\nQ2,10,198\nQ3,15,231\nQ4,15,229\n" });
  const errors = odd.issues.filter(({ severity }) => severity === "error").map(({ rule }) => rule);
  expect(errors).toEqual(expect.arrayContaining(["no-varied-column", "no-result-column"]));
  const growing = await bookOf({
    "spring.csv": "Tray,LC ml,Inoculated,Fresh g,Outcome\nT1,10,2026-03-02,,\nT2,10,2026-03-02,,\n",
  });
  expect(growing.issues.filter(({ severity }) => severity === "error")).toEqual([]);
});

test("a cleaned sheet read again gives the trays that were read, over 25 layouts", async () => {
  for (let seed = 901; seed <= 925; seed++) {
    const { book } = await judgeMutant(seed);
    if (book.trays.length === 0) continue;
    const again = await bookOf({ "harvests/typed.csv": cleanedHarvestCsv(book) });
    expect(allFacts(again), `seed ${seed}`).toEqual(allFacts(book));
  }
});

import { describe, expect, test } from "vitest";
import { bookOf, harvestOf } from "./book-of.ts";
import { misread } from "./tray-lines.ts";

// Numbers that are no plain grams, days or amounts of a tray. Common practice, no source.

const daysOf = async (header: string, cells: ReadonlyArray<string>, field: "daysToHarvest" | "daysToColonise") => {
  const rows = cells.map((cell, index) => `T${index};4;21${index};${cell}`);
  const { trays } = await harvestOf(["Tray;LC ml;Fresh g", ...rows].join("\n").replace("g\n", `g;${header}\n`));
  return trays.map((tray) => tray[field]);
};

describe("a number of weeks, months or hours is read as days", () => {
  test.each([
    ["Time to harvest, weeks", ["8", "8,5"], [56, 59.5]],
    ["Weeks to harvest", ["8", "7"], [56, 49]],
    ["Wochen bis Ernte", ["8", "7"], [56, 49]],
    ["Semaines jusqu'à la récolte", ["8", "7"], [56, 49]],
    ["Semanas hasta cosecha", ["8", "7"], [56, 49]],
    ["Weken tot oogst", ["8", "7"], [56, 49]],
    ["Harvest week", ["8", "7"], [undefined, undefined]],
    ["Days to harvest", ["56", "49"], [56, 49]],
    ["Jours jusqu'à la récolte", ["56", "49"], [56, 49]],
    // what a cell says itself comes before what its header says
    ["Weeks to harvest", ["8", "50 days"], [56, 50]],
  ])("%s: %j", async (header, cells, days) => expect(await daysOf(header, cells, "daysToHarvest")).toEqual(days));

  test.each([
    ["Colonised (wks)", ["3", "2"], [21, 14]],
    ["Hours to colonise", ["336", "288"], [14, 12]],
    // a week may be one of the calendar's
    ["Colonised week", ["3", "2"], [undefined, undefined]],
    ["Colonised (days)", ["21", "14"], [21, 14]],
  ])("%s: %j", async (header, cells, days) => expect(await daysOf(header, cells, "daysToColonise")).toEqual(days));
});

const lost = "T1 4 - - asked|T2 8 - - asked";
const kept = "T1 4 210 - good|T2 8 240 - good";
const under = (header: string): string => `Tray,LC ml,${header}\nT1,4,210\nT2,8,240\n`;
const below = (line: string, header = "Weight (g)"): string => `${line},,\n${under(header)}`;

/** What is said of a sheet that stops a value from being used, or lowers trust in one. */
const saidOf = async (sheet: string) => {
  const book = await bookOf({ "spring.csv": sheet });
  const bad = book.issues.filter(({ severity }) => severity === "error" || severity === "warning");
  return { book, rules: bad.map(({ rule }) => rule) };
};

describe("weights that are others than they stand there are asked about", () => {
  test.each([
    ["a factor", under("Fresh (x 10 g)"), "no-plain-weight"],
    ["a unit of several", under("Fresh (in 100 g)"), "no-plain-weight"],
    ["a score", under("Yield (1-5)"), "no-plain-weight"],
    ["a logarithm", under("Fresh (log g)"), "no-plain-weight"],
    ["a box in brackets", under("Fresh g (wet box)"), "gross-weight-column"],
    ["a box, and no word for fresh", under("With box (g)"), "gross-weight-column"],
    ["dry by a title", below("All weights are dry"), "weights-by-remark"],
    ["dry by a title in German", below("Gewichte getrocknet"), "weights-by-remark"],
    ["a wrong scale", below("Scale reads 20 g too high"), "weights-by-remark"],
    ["a wrong scale in German", below("Waage zeigt 20 g zu viel"), "weights-by-remark"],
  ])("%s", async (_, sheet, rule) => {
    const { book, rules } = await saidOf(sheet);
    expect(misread(book, lost)).toEqual({ missing: [], left: [] });
    expect(rules).toContain(rule);
  });

  test.each([
    ["a unit", under("Fresh (g)")],
    ["grams of each tray", under("Fresh (g/tray)")],
    ["the weight of each tray", under("Fresh g (per tray)")],
    ["its number", under("Fresh (g) 1")],
    ["dry speaks of another column", below("Dry weights after 24 h in the dryer", "Fresh (g)")],
    ["not dried", below("Weights before they are dried")],
    ["no weight is dry", below("Dry run")],
    ["a scale that is right", below("Scale reads to 1 g")],
    ["the scale's name", below("Weighed on the big scale")],
  ])("%s: as it stands", async (_, sheet) => {
    const { book } = await saidOf(sheet);
    expect(misread(book, kept)).toEqual({ missing: [], left: [] });
  });

  test("a flush that may be a running total takes the others with it", async () => {
    const { book, rules } = await saidOf(
      "Tray,LC ml,Flush 1 (g),Flush 2 running total (g)\nT1,4,120,210\nT2,8,140,240\n",
    );
    expect(misread(book, lost)).toEqual({ missing: [], left: [] });
    expect(rules).toContain("no-plain-weight");
  });

  test("a total beside two flushes does not", async () => {
    const { book } = await saidOf(
      "Tray,LC ml,Flush 1 (g),Flush 2 (g),Total flush 1+2 (g)\nT1,4,120,90,210\nT2,8,140,100,240\n",
    );
    expect(misread(book, kept)).toEqual({ missing: [], left: [] });
  });
});

test("a dose that a title gives to all but one is given to none", async () => {
  const doses = async (title: string) =>
    (await harvestOf(`${title},,\nTray,Batch,Fresh (g)\nA1,1,210\nA2,1,220\n`)).trays.map(
      ({ inoculumMillilitres }) => inoculumMillilitres,
    );
  expect(await doses("All trays got 10 mL LC except A1 (5 mL)")).toEqual([undefined, undefined]);
  expect(await doses("10 mL LC; außer A1")).toEqual([undefined, undefined]);
  expect(await doses("10 mL LC")).toEqual([10, 10]);
});

describe("an amount that is not that of a tray is no dose", () => {
  test.each([
    "Inoculum (mL per load of 6)",
    "LC mL per batch",
    "Inoculum (mL per 6 trays)",
    "Inoculum (% of substrate)",
  ])("%s", async (header) => {
    const { trays } = await harvestOf(`Tray,${header},Fresh g\nT1,30,210\nT2,60,240\n`);
    expect(trays.map(({ inoculumMillilitres }) => inoculumMillilitres)).toEqual([undefined, undefined]);
  });

  test.each(["Inoculum (mL)", "LC mL per tray", "Inoculum (mL/bag)"])("%s", async (header) => {
    const { trays } = await harvestOf(`Tray,${header},Fresh g\nT1,4,210\nT2,8,240\n`);
    expect(trays.map(({ inoculumMillilitres }) => inoculumMillilitres)).toEqual([4, 8]);
  });
});

describe("marks and answers", () => {
  test.each([
    ["a minus beside a plus is asked", "Result\nT1,4,210,+\nT2,8,,-", "T1 4 210 - asked|T2 8 - - asked"],
    ["a minus above a plus is asked", "Result\nT1,4,,-\nT2,8,240,+", "T1 4 - - asked|T2 8 240 - asked"],
    ["a dash alone is an empty cell", "Result\nT1,4,210,good\nT2,8,,-", "T1 4 210 - good|T2 8 - - growing"],
    ["no problem is no loss", "Problem?\nT1,4,210,no\nT2,8,,yes", "T1 4 210 - good|T2 8 - - asked"],
    ["alive or not", "Alive\nT1,4,210,yes\nT2,8,,no", "T1 4 210 - good|T2 8 - - failed"],
    ["sick or not", "Sick\nT1,4,210,no\nT2,8,,yes", "T1 4 210 - good|T2 8 - - asked"],
    ["a named problem is read", "Problem?\nT1,4,210,no\nT2,8,,green mould", "T1 4 210 - good|T2 8 - - contaminated"],
  ])("%s", async (_, rows, trays) => {
    expect(misread(await harvestOf(`Tray,LC ml,Fresh g,${rows}\n`), trays)).toEqual({ missing: [], left: [] });
  });
});

test("trays in and trays out are no names, and weights of a number of trays nobody chose are not used", async () => {
  const { book, rules } = await saidOf("Picked on,Trays in,Trays out,LC ml,Fresh g\n2026-03-05,6,5,4,1050\n");
  expect(rules).toContain("two-columns-one-field");
  expect(book.trays.map(({ freshGrams, outcome }) => [freshGrams, outcome])).toEqual([[undefined, "asked"]]);
});

import { describe, expect, test } from "vitest";
import { cleanBook } from "../../../src/cleaning/clean-book.ts";
import type { ColumnPlan } from "../../../src/cleaning/columns/column-plan.ts";
import { lossWordsBeside } from "../../../src/cleaning/trays/loss-words-beside.ts";
import type { TrayDraft } from "../../../src/cleaning/trays/tray-draft.ts";
import { bookOf, harvestOf, inShort, sheet } from "../book-of.ts";
import { draftOf } from "./drafts.ts";

describe("a loss typed in a column of names", () => {
  const plan = (field: string, header = field, because = "its name") => ({ field, header, because }) as ColumnPlan;
  const plans = [
    plan("strain"),
    plan("factor", "Brand"),
    plan("fresh_g"),
    plan("unread", "Extra"),
    plan("supplement", "Base", "pinned in columns.csv"),
  ];
  const beside = (draft: Partial<TrayDraft>, others: Partial<TrayDraft>[] = [{ freshGrams: 200, strain: "Blue" }]) => {
    const own = draftOf(draft);
    const find = lossWordsBeside(
      [
        { file: "a.csv", plans },
        { file: "b.csv", plans: [plan("strain", "Sort")] },
      ],
      [own, ...others.map((one, at) => draftOf({ row: at + 3, ...one }))],
    );
    expect(find(own)).toEqual(find(own));
    return find(own);
  };
  test.each<[string, Partial<TrayDraft>, ReturnType<typeof beside>]>([
    ["beyond doubt", { strain: "thrown out" }, { column: "strain", text: "thrown out" }],
    ["in a free column", { factors: { Brand: "moldy" } }, { column: "Brand", text: "moldy" }],
    ["by a word that may be a name", { strain: "lost" }, { column: "strain", text: "lost" }],
    ["nowhere", { strain: "Blue", factors: { Brand: "Acme" } }, undefined],
    ["with a word for a good one", { strain: "good" }, undefined],
    ["as the name of a place", { strain: "bin 3" }, undefined],
    ["in a column that the grower has pinned", { supplement: "thrown out" }, undefined],
    ["in a free column of another sheet", { file: "b.csv", factors: { Brand: "moldy" } }, undefined],
    ["in another sheet", { file: "b.csv", strain: "moldy" }, { column: "Sort", text: "moldy" }],
    ["in a sheet nobody knows", { file: "c.csv", strain: "moldy" }, undefined],
  ])("%s", (_, draft, found) => {
    expect(beside(draft)).toEqual(found);
  });
  test("by a word that may be a name counts only where trays were weighed, none of which bears it", () => {
    expect(beside({ strain: "lost" }, [{ freshGrams: 200, strain: "lost" }])).toBeUndefined();
    expect(beside({ strain: "lost" }, [{ dryGrams: 20, strain: "lost" }])).toBeUndefined();
    expect(beside({ strain: "lost" }, [{ flushes: [{ number: 2, freshGrams: 20 }], strain: "lost" }])).toBeUndefined();
    expect(beside({ strain: "lost" }, [{ harvestedOn: "2026-02-20", strain: "Blue" }])).toBeUndefined();
    expect(
      beside({ strain: "lost" }, [{ harvestedOn: "2026-02-20", strain: "lost" }, { freshGrams: 200 }]),
    ).toBeDefined();
    expect(beside({ strain: "lost" }, [{ freshGrams: 200, factors: { Brand: "lost" } }])).toBeDefined();
    expect(beside({ strain: "thrown out" }, [{ freshGrams: 200, strain: "thrown out" }])).toBeDefined();
    expect(beside({ strain: "lost", factors: { Brand: "moldy" } }, [{ freshGrams: 200, strain: "lost" }])).toEqual({
      column: "Brand",
      text: "moldy",
    });
  });
});

describe("trays that are only planned", () => {
  const header = "tray_id,inoculum_ml,inoculated_on,harvested_on,fresh_g\n";
  const planned = async (text: string, today?: string) => {
    const book = await cleanBook([sheet("a.csv", `${header}${text}`)], today === undefined ? {} : { today });
    const notes = book.issues
      .filter(({ rule }) => rule === "planned-not-started")
      .map(({ file, row, reason }) => `${file} ${row}: ${reason}`);
    return [book.planned?.map(({ trayId }) => trayId) ?? [], notes];
  };
  const started = "A,10,2026-01-05,2026-02-20,200\n";
  const toCome = "a.csv 3: 1 tray is planned and not started: the day of inoculation is still to come";
  test("to be inoculated after today, or after the last day of which a result is written down", async () => {
    expect(await planned(`${started}P,10,2026-03-02,,\n`, "2026-03-01")).toEqual([["P"], [toCome]]);
    expect(await planned(`${started}P,10,2026-03-01,,\n`, "2026-03-01")).toEqual([[], []]);
    expect(await planned(`${started}P,10,2026-03-02,,\n`)).toEqual([[], []]);
    expect(await planned(`${started}P,10,2026-02-21,,\n`, "2026-01-01")).toEqual([["P"], [toCome]]);
    expect(await planned(`${started}P,10,2026-02-20,,\n`, "2026-01-01")).toEqual([[], []]);
    expect(await planned(`${started}P,10,2026-03-02,,\nQ,10,2026-03-02,,\n`, "2026-03-01")).toEqual([
      ["P", "Q"],
      ["a.csv 3: 2 trays are planned and not started: the day of inoculation is still to come"],
    ]);
  });
  test("are not those of a sheet that has one started, or of a tray that another sheet tells of", async () => {
    const blank = "P,10,,,\nQ,10,,,\n";
    expect(await planned(`${started}${blank}`)).toEqual([[], []]);
    const two = await bookOf({ "a.csv": `${header}${started}P,10,2026-01-06,,\n`, "plan.csv": `${header}${blank}` });
    expect(two.planned?.map(({ trayId }) => trayId)).toEqual(["Q"]);
    expect(two.trays.map(({ trayId }) => trayId).sort()).toEqual(["A", "P"]);
  });
  test("what was said of other rows and sheets stays in the log", async () => {
    const book = await bookOf({
      "a.csv": `${header}A,10,2026-01-05,2026-02-20,~200\n`,
      "plan.csv": `${header}P,~10,,,\n`,
    });
    expect(book.issues.filter(({ rule }) => rule === "approximate").map(({ file }) => file)).toEqual(["a.csv"]);
  });
});

test.each<[string, string, string[], string]>([
  [
    "two columns of outcomes, whatever else is known",
    "Tray,LC ml,Fresh g,Result,Status\nT1,10,205,good,good\nT2,10,,good,lost\n",
    ["T1: asked 205/", "T2: asked"],
    "Result",
  ],
  [
    "the only column that looks like a result",
    "Tray,LC ml,Ergebnisse XY\nT1,10,205\nT2,10,211\nT3,15,231\n",
    ["T1: asked", "T2: asked", "T3: asked"],
    "Ergebnisse XY",
  ],
])("where it is not read yet what became of a tray is asked about: %s", async (_, text, trays, column) => {
  const book = await harvestOf(text);
  expect(inShort(book)).toEqual(trays);
  const asked = book.issues.filter(({ rule }) => rule === "ending-not-read");
  expect(asked.map(({ row }) => row)).toEqual(trays.map((_tray, at) => at + 2));
  for (const { reason } of asked) expect(reason).toContain(`“${column}”`);
});

test("rows that are one tray's are one, in the order first met, and the evidence of all counts", async () => {
  const book = await bookOf({
    "a.csv": "tray_id,inoculum_ml,inoculated_on,fresh_g,outcome\nB,10,2026-01-05,,\nA,10,2026-01-05,abc,\n",
    "b.csv": "tray_id,inoculated_on,dry_g,outcome\nA,2026-01-05,,growing\nB,2026-01-05,20,\n",
  });
  expect(inShort(book)).toEqual(["A: asked", "B: good /20"]);
  expect(book.trays.map(({ trayId }) => trayId)).toEqual(["B", "A"]);
});

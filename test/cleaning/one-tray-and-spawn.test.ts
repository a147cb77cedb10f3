import { expect, test } from "vitest";
import { pickingsOf } from "../../src/records/tray.ts";
import { bookOf, factsOf, harvestOf, rulesOf, trayOf } from "./book-of.ts";

// common practice, no source: a header names what is below it, in whatever order

test("a sheet of one tray is read by its header, in any order of its columns", async () => {
  const cells = {
    "Fresh wt (g)": "contam",
    Tray: "T0",
    "Dose (mL)": "5",
    "Dry wt (g)": "-",
    Grade: "fine",
    Lid: "red",
  };
  const names = Object.keys(cells) as (keyof typeof cells)[];
  for (let turn = 0; turn < names.length; turn++) {
    const order = [...names.slice(turn), ...names.slice(0, turn)];
    const book = await harvestOf(`${order.join(",")}\n${order.map((name) => cells[name]).join(",")}\n`);
    const facts = factsOf(trayOf(book, "T0"));
    expect(facts).toMatchObject({ inoculumMillilitres: 5, outcome: "contaminated", supplementGrade: "fine" });
  }
});

test("trays as columns stay so", async () => {
  const book = await harvestOf("Tray,T1,T2\nDose (mL),5,10\nFresh wt (g),300,320\nOutcome,good,good\n");
  expect(trayOf(book, "T2")).toMatchObject({ inoculumMillilitres: 10, freshGrams: 320 });
});

test("a flush beyond reach is asked about although another flush has no weight", async () => {
  const book = await harvestOf("Tray,Flush 1 (g),Flush 1 date,Flush 2 (g)\nT1,,2026-03-01,45800\nT2,,2026-03-01,90\n");
  expect(pickingsOf(trayOf(book, "T1")).map(({ freshGrams }) => freshGrams)).not.toContain(45_800);
  expect(rulesOf(book)).toContain("weight-out-of-reach");
});

test("a tray is compared with those of its amount of grain spawn", async () => {
  const rows = (spawn: number, grams: number): string[] =>
    Array.from({ length: 6 }, (_, at) => `S${spawn}-${at},${spawn},good,${grams + at}`);
  const text = ["tray_id,spawn_g,outcome,fresh_g", ...rows(20, 40), ...rows(200, 400)].join("\n");
  const book = await bookOf({ "trial.csv": text });
  expect(book.trays).toHaveLength(12);
  expect(book.trays.flatMap(({ flags }) => flags)).toEqual([]);
});

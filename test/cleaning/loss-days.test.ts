import { describe, expect, test } from "vitest";
import { meaningsOfHeader } from "../../src/cleaning/columns/match-columns.ts";
import { pickingsOf } from "../../src/records/tray.ts";
import { harvestOf, trayOf } from "./book-of.ts";

/** Columns and rows that tell only when a tray was lost. Common practice, no source. */
const lostOn = (header: string, weight = ""): string =>
  `Tray,LC mL,Inoculated,${header},Fresh g\nA1,6,2026-03-02,,212\nA2,6,2026-03-02,,198\nA3,9,2026-03-02,2026-03-15,${weight}\nA4,9,2026-03-02,,231\n`;

describe("a column of days under a word for a loss", () => {
  test.each([
    ["Binned", "discarded"],
    ["Binned on", "discarded"],
    ["Thrown out", "discarded"],
    ["Lost", "discarded"],
    ["Contaminated", "contaminated"],
    ["Contam date", "contaminated"],
    ["Green mould seen", "contaminated"],
    ["Entsorgt am", "discarded"],
    ["Jeté le", "discarded"],
  ])("%s: the tray was %s, the others were not", async (header, outcome) => {
    const book = await harvestOf(lostOn(header));
    expect(book.trays.map((tray) => tray.outcome)).toEqual(["good", "good", outcome, "good"]);
  });

  test("contamination seen on a day, beside a weight, may have come after the picking: asked", async () => {
    expect(trayOf(await harvestOf(lostOn("Contaminated", "205")), "A3").outcome).toBe("asked");
    expect(trayOf(await harvestOf(lostOn("Binned on", "205")), "A3").outcome).toBe("good");
  });

  test.each([
    ["Pinned", "fruiting_on"],
    ["Moved to fruiting", "fruiting_on"],
    ["First pins", "fruiting_on"],
  ])("%s is no loss", async (header) => {
    const book = await harvestOf(lostOn(header));
    expect(trayOf(book, "A3")).toMatchObject({ outcome: "growing", fruitingOn: "2026-03-15" });
  });
});

test("a day of loss beside another column of outcomes: the tray is asked about, not taken for growing", async () => {
  const rows = "A1,6,,,212\nA2,6,,,198\nA3,9,,2026-03-15,\nA4,9,,,231\nA5,9,,,\n";
  for (const header of ["Outcome,Binned on", "Mould?,Binned", "Contaminated on,Binned on"]) {
    const book = await harvestOf(`Tray,LC mL,${header},Fresh g\n${rows}`);
    expect(book.trays.map(({ outcome }) => outcome)).toEqual(["good", "good", "asked", "good", "growing"]);
  }
});

test.each(["Packed", "Infected", "Planned", "Inspected", "Dropped", "Supply", "Matter"])(
  "“%s” is a word of its own, no other header misspelt",
  (header) => {
    expect(meaningsOfHeader(header).map(({ because }) => because)).not.toContain("spelling");
  },
);

describe("a list of events, one a row", () => {
  const list = (event: string): string =>
    `Date,Tray,What,How much\n2026-03-02,A1,inoculated,6 ml\n2026-03-02,A2,inoculated,6 ml\n2026-03-02,A3,inoculated,9 ml\n2026-03-15,A3,${event},\n2026-03-20,A1,colonised,\n2026-03-21,A2,colonised,\n2026-04-09,A1,picked,212 g\n2026-04-10,A2,picked,198 g\n2026-04-12,A1,dried,21.5 g\n2026-04-12,A2,dried,19.8 g\n`;

  test.each([
    ["binned", "discarded"],
    ["contaminated", "contaminated"],
    ["green mould", "contaminated"],
    ["green mould - thrown out", "contaminated"],
    ["checked", "asked"],
    ["not contaminated", "growing"],
    ["moved to the tent", "growing"],
  ])("%s: the tray is %s", async (event, outcome) => {
    const book = await harvestOf(list(event));
    expect(book.trays.length).toBe(3);
    expect(trayOf(book, "A3").outcome).toBe(outcome);
    expect(trayOf(book, "A1")).toMatchObject({ outcome: "good", colonisedOn: "2026-03-20", dryGrams: 21.5 });
  });

  test("what only happened to a tray is kept as its note, with its day", async () => {
    const twice = list("moved to the tent").replace("2026-03-20", "2026-03-16,A3,misted,\n2026-03-20");
    const tray = trayOf(await harvestOf(twice), "A3");
    expect(tray.note).toBe("moved to the tent 2026-03-15; misted 2026-03-16");
    expect(pickingsOf(tray)).toEqual([]);
  });
});

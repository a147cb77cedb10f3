import { describe, expect, test } from "vitest";
import { bookOf, harvestOf, rulesOf } from "./book-of.ts";
import { misread } from "./tray-lines.ts";

// What a careful person reads from lines beside the rows. Common practice, no source.

const read = async (sheet: string, truth: string): Promise<void> =>
  expect(misread(await harvestOf(sheet), truth)).toEqual({ missing: [], left: [] });

const lostTwo = "Tray,LC ml,Fresh g\n1,4,210\n2,4,\n3,8,240\n4,8,\n";
const four = "Tray,LC ml,Fresh g\n1,4,255\n2,4,250\n3,8,285\n4,8,283\n";

describe("marks that a legend explains", () => {
  test.each([
    [
      "losses, under the rows",
      "Tray,LC ml,Fresh g,Code\n1,4,210,\n2,4,,G\n3,8,240,\n4,8,,D\n\nG = green mould\nD = dropped\n",
      "1 4 210 - good|2 4 - - contaminated|3 8 240 - good|4 8 - - discarded",
    ],
    [
      "losses, a mark and its meaning in two cells",
      "Tray,LC ml,Fresh g,Code\n1,4,210,\n2,4,,G\n3,8,240,\n4,8,,B\n,,,\nG,green mould,,\nB,bacterial wet spot,,\n",
      "1 4 210 - good|2 4 - - contaminated|3 8 240 - good|4 8 - - contaminated",
    ],
    [
      "numbers, in one line",
      'Tray,LC ml,Fresh g,Status\n1,4,210,1\n2,4,,2\n3,8,240,1\n4,8,,2\n"Key: 1 = ok, 2 = green"\n',
      "1 4 210 - good|2 4 - - contaminated|3 8 240 - good|4 8 - - contaminated",
    ],
    [
      "losses in the column of weights",
      "Tray,LC ml,Fresh g\n1,4,210\n2,4,M\n3,8,240\n4,8,W\nM = mold,,\nW = wet rot,,\n",
      "1 4 210 - good|2 4 - - contaminated|3 8 240 - good|4 8 - - contaminated",
    ],
    [
      "doses above the rows",
      "L = 4 mL\nH = 8 mL\nTray,Dose,Fresh g\n1,L,210\n2,H,240\n3,L,205\n4,H,238\n",
      "1 4 210 - good|2 8 240 - good|3 4 205 - good|4 8 238 - good",
    ],
    [
      "doses above the rows, in two cells",
      "L,4 mL,\nH,8 mL,\nTray,Dose,Fresh g\n1,L,210\n2,H,240\n3,L,205\n4,H,238\n",
      "1 4 210 - good|2 8 240 - good|3 4 205 - good|4 8 238 - good",
    ],
    [
      "colours of doses",
      "Tray,Colour,Fresh g\n1,red,210\n2,blue,240\n3,red,205\n\nred = 4 mL,,\nblue = 8 mL,,\n",
      "1 4 210 - good|2 8 240 - good|3 4 205 - good",
    ],
    [
      "doses of cooks above the rows",
      "Cook A: 4 mL\nCook B: 8 mL\nCook,Tray,Fresh g\nA,1,210\nA,2,205\nB,3,240\nB,4,238\n",
      "1 4 210 - good bA|2 4 205 - good bA|3 8 240 - good bB|4 8 238 - good bB",
    ],
    [
      "trays named under the rows",
      `${lostTwo}Tray 2: green mould\nTray 4: dropped\n`,
      "1 4 210 - good|2 4 - - contaminated|3 8 240 - good|4 8 - - discarded",
    ],
  ])("%s", async (_, sheet, truth) => read(sheet, truth));

  test.each([
    [
      "short names of headers",
      "FW = fresh weight\nLC = liquid culture\nTray,LC ml,FW g\n1,4,210\n2,8,240\n",
      "1 4 210 - good|2 8 240 - good",
    ],
    [
      "cooks of one grain stay two",
      "Tray,Batch,LC ml,Fresh g\n1,A,4,210\n2,B,4,205\n3,A,8,240\nA = rye,,,\nB = rye,,,\n",
      "1 4 210 - good bA|2 4 205 - good bB|3 8 240 - good bA",
    ],
    [
      "doses as titles over their rows",
      "next six: 4 mL,,\nTray,Cook,Fresh g\n1,A,210\n2,A,205\nnext six: 8 mL,,\n3,B,240\n4,B,238\n",
      "1 4 210 - good|2 4 205 - good|3 8 240 - good|4 8 238 - good",
    ],
    [
      "numbered footnotes",
      `${lostTwo}\n1: weighed on the kitchen scale\n2: green lid on this one\n`,
      "1 4 210 - good|2 4 - - growing/asked|3 8 240 - good|4 8 - - growing/asked",
    ],
    [
      "a mark explained twice",
      "Tray,LC ml,Fresh g,Code\n1,4,210,\n2,4,,G\nG = green,,,\nG = good,,,\n",
      "1 4 210 - good|2 4 - - growing/asked",
    ],
  ])("not: %s", async (_, sheet, truth) => read(sheet, truth));

  const coded = "Tray,LC ml,Fresh g,Result\n1,4,210,K\n2,4,,M\n3,8,240,K\n4,8,,D\n";
  const key = "Code,Meaning\nK,good\nM,green mould\nD,dropped\n";
  // a sheet of marks and what they stand for: in rows, across, of others' marks, of numbers
  test.each([
    [key, ["good", "contaminated", "good", "discarded"]],
    ["Code,K,M,D\nMeaning,good,green mould,dropped\n", ["good", "contaminated", "good", "discarded"]],
    [key.replace("Meaning", "Contact"), ["asked", "asked", "asked", "asked"]],
    ["Code,Meaning\n1,good\n2,lost\n", ["asked", "asked", "asked", "asked"]],
  ])("or a sheet of its own: %j", async (text, outcomes) => {
    const book = await bookOf({ "harvests/a.csv": coded, "harvests/key.csv": text });
    expect(book.trays.map(({ outcome }) => outcome)).toEqual(outcomes);
    expect(rulesOf(book).includes("unknown-sheet")).toBe(outcomes[0] === "asked");
    expect(book.leftOut.filter(({ file }) => file === "harvests/key.csv").length).toBeGreaterThan(0);
    const left = await bookOf({
      "harvests/a.csv": coded,
      "harvests/key.csv": text,
      "settings.csv": "key,value\nsection_titles,ignore\n",
    });
    expect(left.trays.map(({ outcome }) => outcome)).toEqual(["asked", "asked", "asked", "asked"]);
  });

  test("and titles are left alone where the settings say so", async () => {
    const book = await harvestOf("L = 4 mL\nH = 8 mL\nTray,Dose,Fresh g\n1,L,210\n2,H,240\n", "section_titles,ignore");
    expect(book.trays.every(({ inoculumMillilitres }) => inoculumMillilitres === undefined)).toBe(true);
    expect(rulesOf(book)).not.toContain("legend");
  });
});

describe("weights that a line makes others", () => {
  test.each([
    ["a box, above", `All weights incl. 45 g box\n${four}`],
    ["a box to be taken off, below", `${four}\nminus 45 g for the box!,,\n`],
    ["a box, German", `Kiste wiegt 45 g; alle Gewichte mit Kiste\n${four}`],
    ["two trays", `Weights are for two trays together\n${four}`],
    ["from a row on", "Tray,LC ml,Fresh g\n1,4,210\n2,4,205\nfrom here on with lid (12 g),,\n3,8,252\n4,8,250\n"],
  ])("%s: none is used, and one line says that they stand as they should", async (_, sheet) => {
    const book = await harvestOf(sheet);
    expect(rulesOf(book)).toContain("weights-by-remark");
    expect(book.trays.map(({ freshGrams, outcome }) => [freshGrams, outcome])).toEqual(
      book.trays.map(() => [undefined, "asked"]),
    );
    const pinned = await bookOf({ "one.csv": sheet, "columns.csv": "file,header,field\n,Fresh g,fresh_g\n" });
    expect(pinned.trays.filter(({ freshGrams }) => freshGrams !== undefined)).toHaveLength(4);
  });

  test.each([
    "Weights net, without the 45 g box",
    "All trays with lids from the new shop",
    "Six trays a load, weighed on Sundays",
    "weighed wet",
    "* with lid (12 g)",
  ])("not: %s", async (line) => {
    for (const sheet of [`${line}\n${four}`, `${four}\n${line}\n`]) {
      const book = await harvestOf(sheet);
      expect(rulesOf(book)).not.toContain("weights-by-remark");
      expect(book.trays.map(({ freshGrams }) => freshGrams)).toEqual([255, 250, 285, 283]);
    }
  });
});

describe("losses told beside the rows", () => {
  test.each([
    ["under them", `${lostTwo}\nTrays 2 and 4 went green\n`],
    ["above them", `Blue trays 2 and 4 lost to trich\n${lostTwo}`],
    ["between them", "Tray,LC ml,Fresh g\n1,4,210\n2,4,\ndropped this one,,\n3,8,240\n4,8,\n"],
    ["as a title", "Tray,LC ml,Fresh g\n1,4,210\n3,8,240\nContaminated:,,\n2,4,\n4,8,\n"],
    ["in the trays' names", "Tray,LC ml,Fresh g\n1,4,210\n2 (contam),4,\n3,8,240\n4 LOST,8,\n"],
  ])("%s", async (_, sheet) => {
    const { trays } = await harvestOf(sheet);
    const outcomes = trays.map(({ trayId, outcome }) => `${trayId[0]} ${outcome}`).sort();
    expect(outcomes).toEqual(["1 good", "2 asked", "3 good", "4 asked"]);
  });

  test("by the name of the sheet", async () => {
    const book = await bookOf({
      "harvests/spring.csv": "Tray,LC ml,Fresh g\n1,4,210\n3,8,240\n",
      "harvests/losses.csv": "Tray,LC ml,Day\n2,4,9\n4,8,12\n",
    });
    const truth = "1 4 210 - good|3 8 240 - good|2 4 - - asked|4 8 - - asked";
    expect(misread(book, truth)).toEqual({ missing: [], left: [] });
  });

  const trays = "Bag,LC ml,Fresh g\nB1,5,205\nB2,5,\nB3,10,\nB4,10,\nB5,10,240\n";
  test.each([
    ["a diary without a header", "diary.csv", "3 March: B2 fine\n9 March: B3, B4: green, took them out\n"],
    ["a line for each thing", "harvests/log.csv", "When,What\n3 March,B2 fine\n9 March,bags 3 and 4 contaminated\n"],
    ["text under a title", "harvests/notes.csv", 'Notes\nB2 slow\n"lost B3 and B4 to trich, lost 1 bag of rye"\n'],
    ["its first line", "notes.csv", "B3 and B4 went green last week\nB2 is fine\n"],
  ])("in a sheet of text: %s", async (_, path, text) => {
    const book = await bookOf({ "harvests/trays.csv": trays, [path]: text });
    const truth = "B1 5 205 - good|B2 5 - - growing|B3 10 - - asked|B4 10 - - asked|B5 10 240 - good";
    expect(misread(book, truth)).toEqual({ missing: [], left: [] });
    expect(book.issues.filter(({ rule }) => rule === "loss-told-elsewhere").map(({ tray }) => tray)).toEqual([
      "B3",
      "B4",
    ]);
  });

  test.each([
    ["Lost (day)", "9", "discarded"],
    ["Perdues", "x", "discarded"],
    ["Ausfall (Tag)", "12", "discarded"],
    ["Contam day", "9", "contaminated"],
    ["Contam", "[x]", "contaminated"],
    ["", "RIP", "failed"],
    ["", "†", "asked"],
  ])("under %s, %s", async (header, cell, outcome) => {
    const blank = cell === "[x]" ? "[ ]" : "";
    const rows = ["Tray,LC ml,Fresh g", "1,4,210", "2,4,"].map((row, at) => `${row},${[header, blank, cell][at]}`);
    const { trays } = await harvestOf(`${rows.join("\n")}\n`);
    expect(trays.map((tray) => tray.outcome)).toEqual(["good", outcome]);
  });

  test.each([
    ["a title of what was tried", `Contamination trial\n${lostTwo}`],
    ["colours that other trays bear", "Tray,LC ml,Fresh g\ngreen 1,4,210\ngreen 2,4,\ngreen 3,8,240\ngreen 4,8,\n"],
    ["none lost", `${lostTwo}\nno contamination in these 4 trays so far\n`],
  ])("not: %s", async (_, sheet) => {
    const { trays } = await harvestOf(sheet);
    expect(trays.map(({ outcome }) => outcome)).toEqual(["good", "growing", "good", "growing"]);
  });
});

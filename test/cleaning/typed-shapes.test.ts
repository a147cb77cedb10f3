import { describe, expect, test } from "vitest";
import { cleanedHarvestCsv } from "../../src/cleaning/cleaned-harvest-csv.ts";
import { allFacts, harvestOf, inShort } from "./book-of.ts";

type Case = readonly [kind: string, sheet: string, trays: string[]];

const three = ["1: good 205/21 @5", "2: good 231/23 @10", "3: contaminated @10"];
const heads = (names: string, separator = ";"): string => names.replaceAll("|", separator);

/** One little trial as growers of eight languages write it: two good trays, one lost. Words from memory of trade use. */
const languages: Case[] = [
  ["en", "Tray|Inoculated|LC (ml)|Wet g|Dry g|Contam?", "3/13/26", "no|no|yes"],
  ["de", "Schale|beimpft|Flüssigkultur (ml)|nass (g)|trocken (g)|Befund", "13.3.26", "i.O.|gut|verschimmelt"],
  ["fr", "Bac|Inoculé le|Culture liquide (mL)|Poids frais (g)|Poids sec (g)|État", "13 mars 2026", "R.A.S.|bon|moisi"],
  [
    "es",
    "Bandeja|Inoculación|Cultivo líquido (ml)|Peso húmedo (g)|Peso seco (g)|¿Contaminada?",
    "13/03/2026",
    "no|no|sí",
  ],
  [
    "it",
    "Vassoio|Inoculazione|Coltura liquida (ml)|Peso umido (g)|Peso secco (g)|Contaminato?",
    "13/03/2026",
    "no|no|sì",
  ],
  ["nl", "Bak|Geënt|Vloeibare cultuur (ml)|Nat (g)|Droog (g)|Besmet?", "13-3-2026", "nee|nee|ja"],
  [
    "pl",
    "Nr tacki|Data inokulacji|Kultura płynna [ml]|Masa świeża [g]|Masa sucha [g]|Stan",
    "13 marca 2026",
    "dobry|dobry|zielona pleśń",
  ],
  [
    "pt",
    "Bandeja|Inoculação|Cultura líquida (ml)|Peso úmido (g)|Peso seco (g)|Contaminou?",
    "13/03/2026",
    "não|não|sim",
  ],
].map(([language, names, day, ends]): Case => {
  const [first, second, third] = ends!.split("|");
  const rows = `1;${day};5;205;21;${first}\n2;${day};10;231;23;${second}\n3;${day};10;;;${third}\n`;
  return [language!, `${heads(names!)}\n${rows}`, three];
});

const shapes: Case[] = [
  [
    "sums and means named with a dose, before or behind",
    "Tray,LC,Fresh,Dry\nA1,10ml,205g,21g\nA2,10ml,198g,20g\nSubtotal 10ml,,403,41\nA3,15ml,240g,24g\nA4,15ml,251g,25g\n15 mL avg,,245.5,24.5\nGrand total,,894,90\n",
    ["A1: good 205/21 @10", "A2: good 198/20 @10", "A3: good 240/24 @15", "A4: good 251/25 @15"],
  ],
  [
    "pounds beside ounces, named by their units alone",
    "Tray,LC cc,lb,oz,dry oz\n1,10,0,7.5,0.8\n2,10,1,0.5,1.6\n3,15,0,9,0.9\n",
    ["1: good 212.6/22.7 @10", "2: good 467.8/45.4 @10", "3: good 255.1/25.5 @15"],
  ],
  [
    "trays as columns, a column named Unit",
    ",Unit,1,2,3\nDose,ml,5,5,10\nFresh,oz,7.2,7.0,9.1\nDry,g,20,19,25\n",
    ["1: good 204.1/20 @5", "2: good 198.4/19 @5", "3: good 258/25 @10"],
  ],
  [
    "side by side without a gap, a column of units blank in each",
    "Tray,LC,,Fresh,,Result,Tray,LC,,Fresh,,Result\nT1,10,ml,,,contam,T3,15,ml,242,g,ok\nT2,10,ml,,,mold,T4,15,ml,207,g,ok\n",
    ["T1: contaminated @10", "T2: contaminated @10", "T3: good 242/ @15", "T4: good 207/ @15"],
  ],
  [
    "side by side without a gap, three tables of two rows under a title and over units",
    "Spring,,,,,,,,\nBac,Dose,Frais,Bac,Dose,Frais,Bac,Dose,Frais\n,ml,g,,ml,g,,ml,g\n1,10,209,3,10,220,5,10,267\n2,15,260,4,15,280,6,15,233\n",
    [
      "1: good 209/ @10",
      "2: good 260/ @15",
      "3: good 220/ @10",
      "4: good 280/ @15",
      "5: good 267/ @10",
      "6: good 233/ @15",
    ],
  ],
  [
    "side by side without a gap, a list of means behind the last",
    "Tray,LC ml,Fresh g,Tray,LC ml,Fresh g,,Dose,Mean fresh,n\n1,10,209,3,10,220,,10,214,2\n2,15,260,4,15,280,,15,270,2\n",
    ["1: good 209/ @10", "2: good 260/ @15", "3: good 220/ @10", "4: good 280/ @15"],
  ],
  [
    "side by side, one with a column of units that is blank",
    "Tray,LC ml,Fresh,,Dry,Unit,Notes,,Tray,LC ml,Fresh,,Dry,Unit,Notes\nT1,5,,,,,green mold,,T3,5,205,g,21,g,\nT2,10,,,,,trich,,T4,10,231,g,23,g,\n",
    ["T1: contaminated @5", "T2: contaminated @10", "T3: good 205/21 @5", "T4: good 231/23 @10"],
  ],
  [
    "group heads over names of which most are known by themselves, one language's over another's",
    "Setup;;Results;\nBak;Dosis (ml);Versgewicht (g);Resultaat\nT1;5;205;gezond\nT2;10;;besmet\n",
    ["T1: good 205/ @5", "T2: contaminated @10"],
  ],
  [
    "a form's questions",
    'Timestamp,Which tray?,How much LC did you use? (ml),Any contamination?,Net fresh g\n4/20/2026 18:02:11,T1,10,No,205\n4/20/2026 18:03:45,T2,10,"no, just slow",231\n4/21/2026 08:15:00,T3,15,Yes - green,\n4/21/2026 08:16:00,T4,15,No - dried out,\n4/21/2026 08:17:00,T5,15,yes?,\n',
    ["T1: good 205/ @10", "T2: good 231/ @10", "T3: contaminated @15", "T4: failed @15", "T5: contaminated @15"],
  ],
  [
    "whether a tray was good",
    "Tray,Dose ml,Good?,Fresh g\nT1,5,x,205\nT2,10,yes,250\nT3,10,no,\n",
    ["T1: good 205/ @5", "T2: good 250/ @10", "T3: failed @10"],
  ],
  [
    "what remarks say of trays without a weight",
    "Tray,Dose ml,Fresh g,Notes\nT1,5,,nothing lost\nT2,5,,mould-free so far\nT3,5,,eaten by mice\nT4,5,,gave away\nT5,5,,verkauft\nT6,5,,looks clean\n",
    ["T1: growing @5", "T2: growing @5", "T3: failed @5", "T4: asked @5", "T5: asked @5", "T6: growing @5"],
  ],
  [
    "remarks that speak of another tray, or of its lid",
    "Tray,Dose ml,Fresh g,Notes\nT1,5,,neighbour moldy\nT2,5,,mold on lid only\nT3,5,205,Nachbar verschimmelt\nT4,5,,moldy\n",
    ["T1: asked @5", "T2: asked @5", "T3: good 205/ @5", "T4: contaminated @5"],
  ],
  [
    "a share lost: none, a part, all",
    "Tray,LC ml,Fresh g,Contam %\nT1,5,205,0\nT2,10,150,20\nT3,10,,100\nT4,10,240,0%\n",
    ["T1: good 205/ @5", "T2: asked 150/ @10", "T3: contaminated @10", "T4: good 240/ @10"],
  ],
  [
    "doses counted in drops are no millilitres",
    "Tray,Dose (drops),Fresh g\nT1,20,205\nT2,20,198\nT3,40,231\nT4,40,226\n",
    ["T1: good 205/", "T2: good 198/", "T3: good 231/", "T4: good 226/"],
  ],
  [
    "a tray in each cell, beside its mean",
    "LC ml,rep 1,rep 2,mean\n5,205,198,201.5\n10,231,226,228.5\n",
    ["10 (rep 1): good 231/ @10", "10 (rep 2): good 226/ @10", "5 (rep 1): good 205/ @5", "5 (rep 2): good 198/ @5"],
  ],
  [
    "cells in quotes, times a count, in words",
    "Tray,Dose ml,Fresh g\nT1,5,'205\nT2,2 x 6 ml,half a kilo\nT3,10,1/2 kg\nT4,a dozen,250\nT5,5,2 x 120\n",
    ["T1: good 205/ @5", "T2: good 500/ @12", "T3: good 500/ @10", "T4: good 250/", "T5: asked @5"],
  ],
  [
    "two columns of one name, two of gross weight: asked",
    "Tray,Dose ml,Fresh g,Fresh g\nT1,5,205,60\nT2,10,231,70\n",
    ["T1: asked @5", "T2: asked @10"],
  ],
  [
    "gross weights and tare: the difference",
    "Tray,Dose ml,Gross g,Tare g\nT1,5,305,100\nT2,10,331,100\n",
    ["T1: good 205/ @5", "T2: good 231/ @10"],
  ],
  [
    "gross weights, and some tares: asked where there is none",
    'Tray,Dose ml,Mushrooms and box (g),Box (g)\nT1,5,"305,5",100\nT2,10,331,\n',
    ["T1: good 205.5/ @5", "T2: asked @10"],
  ],
  [
    "gross weights beside the same without their box",
    "Tray,Dose ml,Tray + mushrooms g,Empty tray g,Net g,Jar + dried g,Dried without jar g\nT1,5,305,100,205,221,21\nT2,10,331,100,231,223,23\n",
    ["T1: good 205/21 @5", "T2: good 231/23 @10"],
  ],
];

describe("sheets as growers type them, with the truth beside each", () => {
  test.each([...languages, ...shapes])("%s", async (_, sheet, trays) => {
    const book = await harvestOf(sheet);
    expect(inShort(book, true)).toEqual(trays);
    expect(allFacts(await harvestOf(cleanedHarvestCsv(book)))).toEqual(allFacts(book));
  });
});

test("a day under a group that says nothing of it is asked, as a lone one is", async () => {
  const book = await harvestOf(
    "Setup,,,Flush 1,,Flush 2,\nTray,LC ml,Date,Fresh,Dry,Fresh,Dry\nT1,10,1/14/26,140,14,60,6\nT2,15,1/21/26,160,16,70,7\n",
  );
  expect(book.issues).toContainEqual(expect.objectContaining({ rule: "column-in-doubt", column: "Date" }));
});

test("a column of days of cooking is the cook where no other column is", async () => {
  const book = await harvestOf("Tray,Cooked,LC ml,Fresh g\nT1,3/13/26,5,205\nT2,3/15/26,10,231\n");
  expect(book.trays.map(({ batch, load }) => [batch, load])).toEqual([
    ["3/13/26", undefined],
    ["3/15/26", undefined],
  ]);
});

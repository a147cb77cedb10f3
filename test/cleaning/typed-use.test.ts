import { expect, test } from "vitest";
import { cleanedHarvestCsv } from "../../src/cleaning/cleaned-harvest-csv.ts";
import { allFacts, bookOf, harvestOf } from "./book-of.ts";
import { misread, type Typed } from "./tray-lines.ts";

/** Columns in which growers mark the trays that count or do not, or that a loss is denied; and such as only look like it. */
const typed: Typed[] = [
  [
    "kept or not",
    "Tray,LC ml,Fresh g,Keep?\nA1,5,210,y\nA2,5,205,n\nA3,10,240,y\nA4,10,,y\n",
    "A1 5 210 - good|A2 5 - - asked|A3 10 240 - good|A4 10 - - growing",
  ],
  [
    "ticks of the trays in use, of weighed ones",
    "Tray,LC ml,Fresh g,Use?\nA1,5,210,x\nA2,5,205,\nA3,10,240,x\nA4,10,,\n",
    "A1 5 210 - good|A2 5 - - asked|A3 10 240 - good|A4 10 - - growing",
  ],
  [
    "left out, beside outcomes: a loss stays one, and no tray goes",
    "Tray,LC ml,Fresh g,Outcome,Exclude?\nA1,5,210,good,no\nA2,5,205,good,yes\nA3,10,,contaminated,yes\nA4,10,,,yes - green mould\nA5,10,,,yes\n",
    "A1 5 210 - good|A2 5 - - good|A3 10 - - contaminated|A4 10 - - contaminated|A5 10 - - asked",
  ],
  [
    "a note that says what became of a tray that is left out",
    "Tray,LC ml,Fresh g,Exclude,Notes\nA1,5,210,,\nA2,5,,x,green mould\nA3,10,240,x,scale was wrong\n",
    "A1 5 210 - good|A2 5 - - contaminated|A3 10 - - asked",
  ],
  [
    "a weight within bounds, and flushes side by side",
    "Tray,LC ml,Flush 1 g,Flush 2 g,Include in analysis\nA1,5,150,60,1\nA2,5,140,>50,0\nA3,10,160,70,1\n",
    "A1 5 210 - good|A2 5 - - asked|A3 10 230 - good",
  ],
  [
    "answered in other words",
    "Tray,LC ml,Fresh g,Valid?\nA1,5,210,ok\nA2,5,205,outlier\nA3,10,240,ok\nA4,10,,green mould\n",
    "A1 5 210 - good|A2 5 - - asked|A3 10 240 - good|A4 10 - - contaminated",
  ],
  [
    "fit for use or not",
    "Tray,LC ml,Fresh g,OK to use\nA1,5,210,yes\nA2,5,,no\nA3,10,240,yes\n",
    "A1 5 210 - good|A2 5 - - asked|A3 10 240 - good",
  ],
  ...(
    [
      ["de", "Auswerten?", "ja", "nein"],
      ["de, why not", "Ausschluss (Grund)", "", "Waage falsch"],
      ["fr", "À exclure", "non", "oui"],
      ["es", "Incluir", "sí", "no"],
      ["it", "Valido", "sì", "no"],
      ["nl", "Niet gebruiken", "nee", "ja"],
      ["pl", "Wykluczyć", "nie", "tak"],
      ["pt", "Excluir da análise", "não", "sim"],
      ["en, denied", "Do not use", "", "x"],
      ["en", "Valid (Y/N)", "Y", "N"],
    ] as const
  ).map(
    ([name, header, counts, not]): Typed => [
      `what counts, ${name}`,
      `Tray;LC ml;Fresh g;${header}\n1;5;210;${counts}\n2;5;205;${not}\n3;10;240;${counts}\n`,
      "1 5 210 - good|2 5 - - asked|3 10 240 - good",
    ],
  ),
  ...(
    [
      ["Not contaminated", "yes", "no"],
      ["No contam", "y", "n"],
      ["Uncontaminated?", "1", "0"],
      ["Schimmelfrei", "ja", "nein"],
      ["Sans moisissure", "oui", "non"],
      ["No contaminada", "sí", "no"],
      ["Senza muffa", "sì", "no"],
      ["Niet besmet", "ja", "nee"],
      ["Nieskażona", "tak", "nie"],
      ["Sem bolor", "sim", "não"],
      ["% not contaminated", "100", "0"],
      ["Survived %", "100", "0"],
      ["% contaminated", "0", "100"],
    ] as const
  ).map(
    ([header, well, not]): Typed => [
      `whether it was well: ${header}`,
      `Tray;LC ml;Fresh g;${header}\n1;5;210;${well}\n2;5;;${not}\n3;10;240;${well}\n4;10;;${well}\n`,
      "1 5 210 - good|2 5 - - lost|3 10 240 - good|4 10 - - growing",
    ],
  ),
  [
    "a number where a loss is denied is a count of either",
    "Tray,LC ml,Fresh g,No contam\nA1,5,210,0\nA2,5,,1\n",
    "A1 5 210 - asked|A2 5 - - asked",
  ],
  [
    "a word that denies a loss, in a note",
    "Tray,LC ml,Fresh g,Notes\nA1,5,210,uncontaminated\nA2,5,,uncontaminated\nA3,10,,unverschimmelt\n",
    "A1 5 210 - good|A2 5 - - growing|A3 10 - - growing",
  ],
  [
    "what only looks like it: a use, a keeping place, a share of weight",
    "Tray,LC ml,Fresh g,Use,Used substrate g,Keep at,% loss\nA1,5,210,dried,500,cellar,90\nA2,5,205,fresh,500,cellar,91\nA3,10,240,dried,500,shed,90\n",
    "A1 5 210 - good|A2 5 205 - good|A3 10 240 - good",
  ],
];

test.each(typed)("%s", async (_, sheets, truth) => {
  const book = await bookOf({ "harvests/one.csv": sheets as string });
  expect(misread(book, truth)).toEqual({ missing: [], left: [] });
  expect(allFacts(await harvestOf(cleanedHarvestCsv(book)))).toEqual(allFacts(book));
});

test("a tray left out by its mark is told of with its row, and the column can be taken for something else", async () => {
  const text = "Tray,LC ml,Fresh g,Exclude\nA1,5,210,\nA2,5,205,x\n";
  const told = ({ rule }: { rule: string }) => rule === "marked-left-out" || rule === "column-of-use";
  const said = (await harvestOf(text)).issues.filter(told).map(({ severity, row, column }) => [severity, row, column]);
  expect(said).toEqual([
    ["note", 0, "Exclude"],
    ["warning", 3, "Exclude"],
  ]);
  const pinned = await bookOf({ "one.csv": text, "columns.csv": "file,header,field\none.csv,Exclude,factor\n" });
  expect(pinned.trays.map(({ freshGrams }) => freshGrams)).toEqual([210, 205]);
  expect(pinned.issues.filter(told)).toEqual([]);
});

test("a tick in a column of the grower's own is of its own row", async () => {
  const { trays } = await harvestOf("Tray,LC ml,Fresh g,Fan\nA1,5,210,x\nA2,5,205,\nA3,10,240,x\nA4,10,245,\n");
  expect(trays.map(({ factors }) => factors.Fan ?? "")).toEqual(["x", "", "x", ""]);
});

test("what a note says is told at the column of notes, not at the marks beside it", async () => {
  const { issues } = await harvestOf("Tray,LC ml,Fresh g,Keep?,Notes\nA1,5,210,y,\nA2,10,240,y,scale off\n");
  expect(issues.filter(({ rule }) => rule === "doubt-in-note")).toMatchObject([{ row: 3, column: "Notes" }]);
});

test.each(["went bad", "green mould near the filter patch"])(
  "left out for a loss, and not asked about: %s",
  async (why) => {
    const { issues } = await harvestOf(`Tray,LC ml,Fresh g,Valid?\n1,5,210,ok\n2,5,,${why}\n3,10,240,ok\n`);
    expect(issues.filter(({ severity }) => severity === "warning")).toEqual([]);
  },
);

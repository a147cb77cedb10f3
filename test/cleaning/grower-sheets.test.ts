import { describe, expect, test } from "vitest";
import { cleanedHarvestCsv } from "../../src/cleaning/cleaned-harvest-csv.ts";
import { allFacts, bookOf, harvestOf, inShort, trayOf } from "./book-of.ts";

/** A sheet's trays in short; what the cleaned sheet says has to be what was used. */
async function traysOf(files: string | Record<string, string>): Promise<string[]> {
  const book = await (typeof files === "string" ? harvestOf(files) : bookOf(files));
  const again = await harvestOf(cleanedHarvestCsv(book));
  expect(allFacts(again)).toEqual(allFacts(book));
  return inShort(book);
}

const cases: [kind: string, sheet: string | Record<string, string>, trays: string[]][] = [
  [
    "losses reported only in a note",
    "tray,dose ml,fresh g,notes\nT1,10,250,\nT2,10,,contam - tossed\nT3,10,,green mold\nT4,20,,binned\nT5,20,,no sign of mold yet\nT6,20,,moved to shelf 2\n",
    ["T1: good 250/", "T2: contaminated", "T3: contaminated", "T4: discarded", "T5: growing", "T6: growing"],
  ],
  [
    "losses denied, and words nobody knows",
    "tray,dose ml,outcome,fresh g\nA,10,mold free,250\nB,10,nicht kontaminiert,240\nC,10,flibber,\nD,10,meh,200\nE,10,no mold but stalled,\n",
    ["A: good 250/", "B: good 240/", "C: asked", "D: asked 200/", "E: failed"],
  ],
  [
    "weights that were typed and cannot be read, and weights to come",
    "tray,dose ml,fresh g,dry g\nA,10,abc,\nB,10,forgot to weigh,\nC,10,pending,\nD,10,250,pending\nE,10,240,drying\nF,10,,trocknet noch\n",
    ["A: asked", "B: asked", "C: growing", "D: good 250/", "E: good 240/", "F: good"],
  ],
  [
    "several trays in the column of names",
    'tray,dose ml,fresh g\nT1-T6,10,1240 g\n7 and 8,10,400\n"9,10,11",10,600\n12/13,10,390\nT20 to T22,10,210 g each\n',
    [
      "12/13: good 390/ x2",
      "7 and 8: good 400/ x2",
      "9,10,11: good 600/ x3",
      "T1-T6: good 1240/ x6",
      "T20 to T22: good 630/ x3",
    ],
  ],
  [
    "numbers with a hyphen that are names, because they overlap",
    "tray,dose ml,fresh g\n1-1,10,210\n1-2,10,220\n1-3,10,230\n2-1,10,240\n2-3,10,250\n",
    ["1-1: good 210/", "1-2: good 220/", "1-3: good 230/", "2-1: good 240/", "2-3: good 250/"],
  ],
  [
    "a column of counts",
    "dose ml,Trays,fresh g\n10,6,1240\n12,999999999,1300\n15,4,900\n",
    [
      "row 2 of harvests/one.csv: good 1240/ x6",
      "row 3 of harvests/one.csv: asked",
      "row 4 of harvests/one.csv: good 900/ x4",
    ],
  ],
  [
    "one name in two cooks",
    "tray,batch,dose ml,fresh g\nT1,A,10,210\nT2,A,10,220\nT1,B,20,310\n",
    ["T1 (A): good 210/", "T1 (B): good 310/", "T2: good 220/"],
  ],
  [
    "one name in two monthly files",
    {
      "harvests/march.csv": "tray,dose ml,fresh g,harvested\nT1,10,210,2026-03-01\n",
      "harvests/april.csv": "tray,dose ml,fresh g,harvested\nT1,20,310,2026-04-01\n",
    },
    ["T1 (april): good 310/", "T1 (march): good 210/"],
  ],
  [
    "a start sheet and a harvest sheet of the same trays",
    {
      "harvests/a-start.csv": "tray,dose ml,inoculated\nT1,10,2026-01-01\nT2,12,2026-01-01\n",
      "harvests/b-harvest.csv": "tray,fresh g,dry g\nt 1,210,21\nT02,220,22\n",
    },
    ["T1: good 210/21", "T2: good 220/22"],
  ],
  [
    "spellings of one name over its flushes",
    "tray,flush,dose ml,fresh g\nT1,1,10,210\nt 1,2,10,100\nT01,3,10,50\n",
    ["T1: good 360/"],
  ],
  [
    "pickings of one tray on two days",
    "tray,dose ml,harvested,fresh g\nT1,10,2026-03-01,210\nT1,10,2026-03-15,90\n",
    ["T1: good 300/"],
  ],
  ["two weights of one name that nothing tells apart", "tray,dose ml,fresh g\nT1,10,210\nT1,10,150\n", ["T1: asked"]],
  [
    "flushes side by side with one dry weight",
    "tray,dose ml,flush 1 g,flush 2 g,dry g\nA,10,200,100,30\nB,10,210,,21\n",
    ["A: good 300/30", "B: good 210/21"],
  ],
  [
    "arithmetic and containers in cells",
    "tray,dose ml,fresh g,dry g\nA,12ml + 5ml,205 + 40,21+4\nB,10 mL/tray,210g (with towel),20\nC,10,310 with towel,20\nD,10,7-1/2 oz,20\nE,10,200 + 50 + 30 g,28\n",
    ["A: good 245/25", "B: good /20", "C: good /20", "D: good 212.6/20", "E: good 280/28"],
  ],
];

describe("kinds of sheets that growers type", () => {
  test.each(cases)("%s", async (_kind, sheet, trays) => {
    expect(await traysOf(sheet)).toEqual(trays);
  });
});

const languages: [language: string, sheet: string][] = [
  [
    "German",
    "Schale;Charge;Impfmenge (ml);Frischgewicht (g);Trockengewicht (g);Geerntet am;Ergebnis\nT1;A;10;250;25;3. März 2026;geerntet\nT2;A;10;;;;verschimmelt\nT3;B;12;240;24;5. März 2026;kein Schimmel",
  ],
  [
    "French",
    "Barquette;Lot;CL ml;Poids frais (g);Poids sec (g);Récolté le;Résultat\nT1;A;10;250;25;3 mars 2026;récolté\nT2;A;10;;;;moisi\nT3;B;12;240;24;5 mars 2026;sans moisissure",
  ],
  [
    "Spanish",
    "Bandeja;Lote;Dosis (ml);Peso fresco (g);Peso seco (g);Fecha de cosecha;Resultado\nT1;A;10;250;25;3 de marzo de 2026;cosechado\nT2;A;10;;;;contaminada\nT3;B;12;240;24;5 de marzo de 2026;sin moho",
  ],
  [
    "Italian",
    "Vaschetta;Lotto;Dose ml;Peso fresco (g);Peso secco (g);Raccolto il;Esito\nT1;A;10;250;25;3 marzo 2026;raccolto\nT2;A;10;;;;muffa\nT3;B;12;240;24;5 marzo 2026;senza muffa",
  ],
  [
    "Dutch",
    "Bak;Partij;LC ml;Versgewicht (g);Drooggewicht (g);Geoogst op;Resultaat\nT1;A;10;250;25;3 mrt 2026;geoogst\nT2;A;10;;;;besmet\nT3;B;12;240;24;5 mrt 2026;geen schimmel",
  ],
  [
    "Polish",
    "Nr tacki;Partia;Dawka ml;Świeża masa (g);Sucha masa (g);Data zbioru;Wynik\nT1;A;10;250;25;3 marca 2026;zebrany\nT2;A;10;;;;skażona\nT3;B;12;240;24;5 marca 2026;bez pleśni",
  ],
  [
    "Portuguese",
    "Bandeja;Lote;Dose ml;Peso fresco (g);Peso seco (g);Colhido em;Resultado\nT1;A;10;250;25;3 de março de 2026;colhido\nT2;A;10;;;;mofado\nT3;B;12;240;24;5 de março de 2026;sem mofo",
  ],
  [
    "English, as a form asks",
    "Which tray?;Batch;How much LC did you inject (ml)?;Net fresh g;What was the dry weight? (g);When was it picked?;Any contamination?\nT1;A;10;250;25;3 March 2026;No\nT2;A;10;;;;Yes\nT3;B;12;240;24;5 March 2026;no",
  ],
];

test.each(languages)("a sheet in %s", async (_language, text) => {
  const book = await harvestOf(`${text}\n`);
  expect(trayOf(book, "T1")).toMatchObject({
    batch: "A",
    inoculumMillilitres: 10,
    freshGrams: 250,
    dryGrams: 25,
    harvestedOn: "2026-03-03",
    outcome: "good",
  });
  expect(trayOf(book, "T2")).toMatchObject({ inoculumMillilitres: 10, outcome: "contaminated" });
  expect(trayOf(book, "T3")).toMatchObject({ batch: "B", outcome: "good", harvestedOn: "2026-03-05" });
});

describe("doses, dates and columns", () => {
  test("grain spawn by weight and by share are doses of their own", async () => {
    const rate = await harvestOf("tray,spawn rate,fresh g\nA,5 %,250\nB,10%,300\n");
    expect(rate.trays.map(({ spawnShare }) => spawnShare)).toEqual([0.05, 0.1]);
    const weight = await harvestOf("Beutel;Körnerbrut (g);Frischgewicht (g)\nA;50;250\nB;100;300\n");
    expect(weight.trays.map(({ spawnGrams }) => spawnGrams)).toEqual([50, 100]);
  });

  test.each(["ml", "cc", "LC", "dose", "Dosis", "dawka"])(
    "a plain %j beside tray and weights is the inoculum",
    async (name) => {
      const book = await harvestOf(`tray,${name},fresh g\nA,10,250\nB,12,260\n`);
      expect(book.trays.map(({ inoculumMillilitres }) => inoculumMillilitres)).toEqual([10, 12]);
    },
  );

  test("a column of years first is seen by what keeps together", async () => {
    const first = await harvestOf("tray,harvested,fresh g\nA,26-01-14,250\nB,26-02-28,260\nC,26-03-01,270\n");
    expect(first.trays.map(({ harvestedOn }) => harvestedOn)).toEqual(["2026-01-14", "2026-02-28", "2026-03-01"]);
    const last = await harvestOf("tray,harvested,fresh g\nA,14-01-26,250\nB,28-02-26,260\nC,01-03-26,270\n");
    expect(last.trays.map(({ harvestedOn }) => harvestedOn)).toEqual(["2026-01-14", "2026-02-28", "2026-03-01"]);
    const open = await harvestOf("tray,harvested,fresh g\nA,26-01-14,250\n");
    expect(trayOf(open, "A").harvestedOn).toBeUndefined();
    expect(open.issues.find(({ rule }) => rule === "day-or-month")?.setting).toBe("date_order");
  });

  test("a year comes from the full dates of the row", async () => {
    const book = await harvestOf("tray,inoculated,harvested,fresh g\nA,3 Jan,2026-03-01,205\nB,4 Jan,2026-03-05,210\n");
    expect(trayOf(book, "A").inoculatedOn).toBe("2026-01-03");
    const known = await harvestOf(
      "tray,inoculated,harvested,fresh g\nA,3 Jan,2026-03-01,205\nB,2026-01-04,5 Mar,210\n",
    );
    expect(trayOf(known, "B").harvestedOn).toBe("2026-03-05");
  });

  test("a lone date beside weights, and a gross weight, are asked about", async () => {
    const date = await harvestOf("tray,dose ml,Date,fresh g\nA,10,2026-03-01,205\nB,10,2026-03-02,215\n");
    expect(date.columns.find(({ header }) => header === "Date")?.field).toBe("unread");
    expect(date.issues.find(({ rule }) => rule === "column-in-doubt")?.reason).toContain(
      "inoculated_on or harvested_on",
    );
    const gross = await harvestOf("tray,dose ml,Fresh incl. tray (g)\nA,10,205\n");
    expect(gross.columns.find(({ header }) => header.startsWith("Fresh"))?.field).toBe("unread");
  });

  test("an exact canonical header wins over every other claim", async () => {
    const book = await harvestOf("tray_id,inoculum_ml,dose,fresh_g,Fresh weight\nA,10,99,250,1\n");
    expect(trayOf(book, "A")).toMatchObject({ inoculumMillilitres: 10, freshGrams: 250 });
  });
});

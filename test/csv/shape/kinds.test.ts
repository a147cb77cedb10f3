import { expect, test } from "vitest";
import type { ShapeSettings } from "../../../src/csv/shape/sheet-words.ts";
import { tablesOf } from "./tables-of.ts";

interface Kind {
  kind: string;
  sheet: string;
  /** header and rows of each table it gives */
  gives: string[][];
  /** rules of the log that speak of it */
  says?: string[];
  /** rules of rows left out */
  left?: string[];
  settings?: Partial<ShapeSettings>;
}

const kinds: Kind[] = [
  {
    kind: "trays as columns",
    sheet: "Tray,T1,T2,T3\nLC ml,10,10,15\nFresh g,200,210,250\nDry g,20,21,25\nNotes,,contam,\n",
    gives: [["Tray|LC ml|Fresh g|Dry g|Notes", "T1|10|200|20|", "T2|10|210|21|contam", "T3|15|250|25|"]],
    says: ["trays-as-columns"],
  },
  {
    kind: "trays as columns, with a title, no name over the trays and a column of units",
    sheet: "Batch A,,,,\n,,T1,T2,T3\nLC,ml,10,10,15\nFresh,g,200,210,250\nOutcome,,good,good,contam\n",
    gives: [["tray|LC ml|Fresh g|Outcome|Batch", "T1|10|200|good|A", "T2|10|210|good|A", "T3|15|250|contam|A"]],
    says: ["trays-as-columns", "nameless-trays", "section-titles"],
    left: ["title-line"],
  },
  {
    kind: "trays as columns, one block below the other",
    sheet:
      "Batch A,,\nTray,T1,T2\nLC ml,10,15\nFresh g,200,210\n,,\nBatch B,,\nTray,T3,T4\nLC ml,10,15\nFresh g,220,230\n",
    gives: [
      ["Tray|LC ml|Fresh g|Batch", "T1|10|200|A", "T2|15|210|A"],
      ["Tray|LC ml|Fresh g|Batch", "T3|10|220|B", "T4|15|230|B"],
    ],
    says: ["trays-as-columns", "section-titles"],
  },
  {
    kind: "trays as columns, undone",
    sheet: "Tray,Strain,Yield\nBatch,10,10\nDose,200,210\n",
    gives: [["Tray|Strain|Yield", "Batch|10|10", "Dose|200|210"]],
    settings: { layout: "rows" },
  },
  {
    kind: "tables side by side, a blank column between, each with its title",
    sheet: "Batch A,,,,Batch B,,\nTray,Dose,Fresh,,Tray,Dose,Fresh\nT1,10,200,,T4,10,190\nT2,10,210,,T5,15,230\n",
    gives: [
      ["Tray|Dose|Fresh|Batch", "T1|10|200|A", "T2|10|210|A"],
      ["Tray|Dose|Fresh|Batch", "T4|10|190|B", "T5|15|230|B"],
    ],
    says: ["side-by-side", "section-titles"],
  },
  {
    kind: "tables side by side without a gap",
    sheet: "Tray,LC ml,Fresh g,Tray,LC ml,Fresh g\nT1,10,200,T4,10,190\nT2,10,210,T5,15,230\n",
    gives: [
      ["Tray|LC ml|Fresh g", "T1|10|200", "T2|10|210"],
      ["Tray|LC ml|Fresh g", "T4|10|190", "T5|15|230"],
    ],
    says: ["side-by-side"],
  },
  {
    kind: "tables of unlike lengths side by side",
    sheet: "Tray,LC ml,Fresh g,,Tray,LC ml,Fresh g\nT1,10,200,,T4,10,190\nT2,10,210,,,,\nT3,10,220,,,,\n",
    gives: [
      ["Tray|LC ml|Fresh g", "T1|10|200", "T2|10|210", "T3|10|220"],
      ["Tray|LC ml|Fresh g", "T4|10|190"],
    ],
    says: ["side-by-side"],
  },
  {
    kind: "a blank column inside one table",
    sheet: "Tray,LC ml,,Fresh g,Notes\nT1,10,,200,\nT2,15,,210,dense\nT3,15,,215,\n",
    gives: [["Tray|LC ml||Fresh g|Notes", "T1|10||200|", "T2|15||210|dense", "T3|15||215|"]],
  },
  {
    kind: "a table of means beside the table of trays",
    sheet:
      "Tray,Dose ml,Fresh g,,Dose ml,Mean fresh\nT1,10,200,,10,205\nT2,10,210,,15,225\nT3,15,220,,,\nT4,15,230,,,\n",
    gives: [["Tray|Dose ml|Fresh g", "T1|10|200", "T2|10|210", "T3|15|220", "T4|15|230"]],
    says: ["beside-table"],
    left: ["beside-table"],
  },
  {
    kind: "tables one below the other with titles and a blank row",
    sheet: "Batch A\nTray,LC ml,Fresh g\nT1,10,200\nT2,15,210\n\nBatch B\nTray,LC ml,Fresh g\nT3,10,200\nT4,15,210\n",
    gives: [["Tray|LC ml|Fresh g|Batch", "T1|10|200|A", "T2|15|210|A", "T3|10|200|B", "T4|15|210|B"]],
    says: ["section-titles"],
    left: ["title-line", "blank-row", "section-title", "repeated-header"],
  },
  {
    kind: "tables of other columns one below the other, no title and no blank row",
    sheet: "Tray,LC ml,Fresh g\nT1,10,200\nT2,15,210\nTray,LC ml,Fresh g,Dry g\nT3,10,200,20\nT4,15,210,21\n",
    gives: [
      ["Tray|LC ml|Fresh g", "T1|10|200", "T2|15|210"],
      ["Tray|LC ml|Fresh g|Dry g", "T3|10|200|20", "T4|15|210|21"],
    ],
    says: ["further-table"],
  },
  {
    kind: "one thing of one tray a row",
    sheet: "Tray,What,Value\nT1,LC ml,10\nT1,Fresh g,200\nT1,Dry g,20\nT2,LC ml,15\nT2,Fresh g,250\nT2,Dry g,25\n",
    gives: [["Tray|LC ml|Fresh g|Dry g", "T1|10|200|20", "T2|15|250|25"]],
    says: ["long-layout"],
  },
  {
    kind: "one thing of one tray a row, the tray named once, a date and a unit beside each value",
    sheet:
      "Date,Tray,Measurement,Value,Unit\n1/5/26,T1,fresh weight,200,g\n1/9/26,,dry weight,20,g\n1/5/26,T2,fresh weight,7,oz\n1/9/26,,dry weight,25,g\n",
    gives: [
      [
        "Tray|fresh weight|harvested_on|dry weight|dried_on",
        "T1|200 g|1/5/26|20 g|1/9/26",
        "T2|7 oz|1/5/26|25 g|1/9/26",
      ],
    ],
    says: ["long-layout"],
  },
  {
    kind: "one thing of one tray a row, flushes in columns",
    sheet: "Tray,what,flush 1,flush 2\nT1,fresh g,200,100\nT1,dry g,20,10\nT2,fresh g,210,110\nT2,dry g,21,11\n",
    gives: [
      ["Tray|fresh g flush 1|fresh g flush 2|dry g flush 1|dry g flush 2", "T1|200|100|20|10", "T2|210|110|21|11"],
    ],
    says: ["long-layout"],
  },
  {
    kind: "a title tells the cook of the rows below it",
    sheet:
      "Tray,LC ml,Fresh g,Dry g\nBatch A (cooked 3/1/26),,,\nT1,10,200,20\nT2,15,210,21\nBatch B (cooked 3/8/26),,,\nT3,10,190,19\nT4,15,205,20\n",
    gives: [
      [
        "Tray|LC ml|Fresh g|Dry g|Batch|Section: cooked",
        "T1|10|200|20|A|3/1/26",
        "T2|15|210|21|A|3/1/26",
        "T3|10|190|19|B|3/8/26",
        "T4|15|205|20|B|3/8/26",
      ],
    ],
    says: ["section-titles"],
    left: ["section-title"],
  },
  {
    kind: "a title tells the dose of the rows below it",
    sheet: "Tray,Fresh g,Dry g\n10 mL,,\nT1,200,20\nT2,210,21\n15 mL,,\nT3,190,19\nT4,205,20\n",
    gives: [
      ["Tray|Fresh g|Dry g|inoculum", "T1|200|20|10 mL", "T2|210|21|10 mL", "T3|190|19|15 mL", "T4|205|20|15 mL"],
    ],
    says: ["section-titles"],
  },
  {
    kind: "a title of two cells",
    sheet: "Batch:,A,,\nTray,LC ml,Fresh g,Dry g\nT1,10,200,20\nT2,15,210,21\nBatch:,B,,\nT3,10,200,20\nT4,15,210,21\n",
    gives: [["Tray|LC ml|Fresh g|Dry g|Batch", "T1|10|200|20|A", "T2|15|210|21|A", "T3|10|200|20|B", "T4|15|210|21|B"]],
    says: ["section-titles"],
  },
  {
    kind: "titles, undone",
    sheet: "Tray,Fresh g,Dry g\n10 mL,,\nT1,200,20\nT2,210,21\n15 mL,,\nT3,190,19\n",
    gives: [["Tray|Fresh g|Dry g", "T1|200|20", "T2|210|21", "T3|190|19"]],
    left: ["section-title"],
    settings: { sectionTitles: "ignore" },
  },
  {
    kind: "cook and dose typed once for each block",
    sheet: "Batch,Dose ml,Tray,Fresh g\nA,10,T1,200\n,,T2,205\n,,T3,210\nB,15,T4,220\n,,T5,230\n,,T6,\n",
    gives: [
      [
        "Batch|Dose ml|Tray|Fresh g",
        "A|10|T1|200",
        "A|10|T2|205",
        "A|10|T3|210",
        "B|15|T4|220",
        "B|15|T5|230",
        "B|15|T6|",
      ],
    ],
    says: ["fill-down"],
  },
  {
    kind: "blocks, undone",
    sheet: "Batch,Dose ml,Tray,Fresh g\nA,10,T1,200\n,,T2,205\n,,T3,210\nB,15,T4,220\n",
    gives: [["Batch|Dose ml|Tray|Fresh g", "A|10|T1|200", "||T2|205", "||T3|210", "B|15|T4|220"]],
    settings: { fillDown: "no" },
  },
  {
    kind: "a column with blanks that nothing bears out is asked about and left blank",
    sheet:
      "Tray,Dose ml,Fresh g\nT1,10,200\nT2,,205\nT3,,210\nT4,15,220\nT5,,230\nT6,20,240\nT7,,241\nT8,,242\nT9,,243\n",
    gives: [
      [
        "Tray|Dose ml|Fresh g",
        "T1|10|200",
        "T2||205",
        "T3||210",
        "T4|15|220",
        "T5||230",
        "T6|20|240",
        "T7||241",
        "T8||242",
        "T9||243",
      ],
    ],
    says: ["fill-down-in-doubt"],
  },
  {
    kind: "weights are never filled down",
    sheet: "Batch,Tray,Fresh g,Dry g\nA,T1,200,20\n,T2,,\n,T3,,\nB,T4,210,21\n,T5,,\n,T6,,\n",
    gives: [["Batch|Tray|Fresh g|Dry g", "A|T1|200|20", "A|T2||", "A|T3||", "B|T4|210|21", "B|T5||", "B|T6||"]],
    says: ["fill-down"],
  },
  {
    kind: "marks that say as above",
    sheet: 'Tray,Strain,Dose ml,Fresh g\nT1,Blue,10,200\nT2,"""","""",205\nT3,ditto,ditto,210\n',
    gives: [["Tray|Strain|Dose ml|Fresh g", "T1|Blue|10|200", "T2|Blue|10|205", "T3|Blue|10|210"]],
  },
  {
    kind: "the tray named once for all its flushes",
    sheet: "Tray,Dose ml,Flush,Fresh g\nT1,10,1,200\n,,2,80\nT2,15,1,210\n,,2,90\n",
    gives: [["Tray|Dose ml|Flush|Fresh g", "T1|10|1|200", "T1||2|80", "T2|15|1|210", "T2||2|90"]],
    says: ["fill-down"],
  },
  {
    kind: "units in a column beside the numbers",
    sheet: "Tray,LC ml,Fresh,Unit,Dry,Unit\nT1,10,200,g,20,g\nT2,15,7.5,oz,21,g\n",
    gives: [["Tray|LC ml|Fresh|Dry (g)", "T1|10|200 g|20", "T2|15|7.5 oz|21"]],
    says: ["joined-columns"],
  },
  {
    kind: "pounds and ounces in two columns",
    sheet: "Tray,LC ml,Fresh lb,Fresh oz,Dry g\nT1,10,0,7.5,20\nT2,15,1,2,21\n",
    gives: [["Tray|LC ml|Fresh|Dry g", "T1|10|7.5 oz|20", "T2|15|1 lb 2 oz|21"]],
    says: ["joined-columns"],
  },
  {
    kind: "one weight in two units",
    sheet: "Tray,LC ml,Fresh g,Fresh oz\nT1,10,200,7.05\nT2,15,210,7.41\n",
    gives: [["Tray|LC ml|Fresh", "T1|10|200 g", "T2|15|210 g"]],
    says: ["joined-columns"],
  },
  {
    kind: "a line of group heads with gaps over the names",
    sheet:
      ",Inoculum,,Harvest,,\nTray,ml,date,fresh,dry,outcome\nT1,10,2026-01-01,200,20,good\nT2,15,2026-01-01,210,21,good\n",
    gives: [
      [
        "Tray|Inoculum ml|Inoculum date|fresh|dry|outcome",
        "T1|10|2026-01-01|200|20|good",
        "T2|15|2026-01-01|210|21|good",
      ],
    ],
  },
  {
    kind: "comments, and lines of a name and a value, before the header",
    sheet: "#BATCH:,A,\n#STRAIN:,Blue,\n# weighed on the old scale\nTray,LC ml,Fresh g\nT1,10,200\nT2,15,210\n",
    gives: [["Tray|LC ml|Fresh g|BATCH|STRAIN", "T1|10|200|A|Blue", "T2|15|210|A|Blue"]],
    says: ["section-titles"],
    left: ["title-line"],
  },
  {
    kind: "footnotes and sources under the table",
    sheet: "Tray,LC ml,Fresh g\nT1,10,200\nT2,15,210\n\n* weighed wet\nSource: notebook p. 4\n",
    gives: [["Tray|LC ml|Fresh g", "T1|10|200", "T2|15|210"]],
    left: ["blank-row", "footnote"],
  },
  {
    kind: "a list of trays of which nothing is known yet",
    sheet: "Tray,LC ml,Fresh g\nT1,,\nT2,,\nT3,,\n",
    gives: [["Tray|LC ml|Fresh g", "T1||", "T2||", "T3||"]],
  },
  {
    kind: "spaces between the comma and the quotation mark",
    sheet: 'Tray, LC ml, Note, Fresh g\nA1, 10, "good, dense", 310\nA2, 15, "ok, thin", 300\n',
    gives: [["Tray|LC ml|Note|Fresh g", "A1| 10|good, dense| 310", "A2| 15|ok, thin| 300"]],
  },
];

test.each(kinds)("$kind", async ({ sheet, gives, says = [], left = [], settings }) => {
  const { texts, issues, leftOut } = await tablesOf(sheet, settings);
  expect(texts).toEqual(gives);
  const rules = [...new Set(issues.map(({ rule }) => rule))];
  expect(rules.filter((rule) => !["short-row", "empty-columns"].includes(rule)).sort()).toEqual([...says].sort());
  expect([...new Set(leftOut.map(({ rule }) => rule))].sort()).toEqual(
    [...left, ...(left.length === 0 ? [...new Set(leftOut.map(({ rule }) => rule))] : [])].sort(),
  );
  // what is assumed names what undoes it
  for (const { rule, setting, action } of issues) {
    if (
      ["section-titles", "fill-down", "long-layout", "trays-as-columns", "side-by-side", "further-table"].includes(rule)
    ) {
      expect(action, rule).toContain("settings.csv");
      expect(setting, rule).toBeDefined();
    }
  }
});

test.each([
  [
    "too many separators",
    "Tray,LC ml,Fresh g,Dry g,Note\nA1,10,205,22,ok\nA2,10,,250,25,\nA3,15,240,26,\nA4,15,230,25,fine\n",
  ],
  [
    "too many separators, no note",
    "Tray,LC ml,Fresh g,Dry g\nA1,10,205,22\nA2,10,,250,25,\nA3,15,240,26\nA4,15,230,25\n",
  ],
  [
    "a decimal comma in a sheet of commas",
    "Tray,LC ml,Fresh g,Dry g\nA1,10,205,22\nA2,10,250,24,5\nA3,15,240,26\nA4,15,230,25\n",
  ],
  [
    "a separator missing",
    "Tray,LC ml,Fresh g,Dry g,Outcome\nA1,10,205,22,good\nA2,10250,24,good\nA3,15,240,26,good\nA4,15,230,25,good\n",
  ],
])("cells that may have moved are asked about: %s", async (_, text) => {
  const { issues, leftOut, texts } = await tablesOf(text);
  expect(issues).toMatchObject([{ rule: "shifted-row", severity: "error", row: 3 }]);
  expect(leftOut).toMatchObject([{ rule: "shifted-row", row: 3 }]);
  expect(texts[0]!.map((row) => row.split("|")[0])).toEqual(["Tray", "A1", "A3", "A4"]);
});

test.each([
  ["numbers and codes", "T1,10,205,22,good\nT2,15,215,23,good\nT3,15,225,24,contam\n", "no-header"],
  ["mostly words", "T1,Blue,coir,good,205\nT2,Blue,coir,good,215\nT3,Oyster,coir,bad,225\n", "no-header"],
  ["apart by spaces", "Tray LC_ml Fresh_g\nT1 10 200\nT2 15 210\n", "unread-delimiter"],
  ["apart by a sign", "Tray#LC ml#Fresh g\nT1#10#200\nT2#15#210\n", "unread-delimiter"],
])("refused with the reason: %s", async (_, text, rule) => {
  const { issues, tables } = await tablesOf(text);
  expect(tables).toEqual([]);
  expect(issues).toMatchObject([{ rule, severity: "error" }]);
  expect(issues[0]!.action).not.toBe("");
});

import { expect, test } from "vitest";
import { cleanedHarvestCsv } from "../../../src/cleaning/cleaned-harvest-csv.ts";
import { proposeColumns } from "../../../src/cleaning/propose-columns.ts";
import { bookOf } from "../book-of.ts";

const cleaned = async (text: string, files: Record<string, string> = {}): Promise<string> =>
  cleanedHarvestCsv(await bookOf({ "a.csv": text, ...files }));
const lines = (...rows: string[]): string => [...rows, ""].join("\r\n");

// one row a tray, one a flush where a tray has several, canonical units; what reads back as the same trays
test.each([
  [
    "free columns, with a cell that is blank",
    "Tray,Dose ml,Fresh g,Lid colour\nA,5,200,red\nB,10,210,\n",
    ["tray_id,inoculum_ml,outcome,fresh_g,Lid colour", "A,5,good,200,red", "B,10,good,210,"],
  ],
  [
    "flushes; the first of one alone has no number",
    "Tray,Flush,Fresh g,Picked\nA,1,200,2026-03-01\nA,2,90,2026-03-20\nB,1,210,2026-03-02\n",
    [
      "tray_id,harvested_on,flush,outcome,fresh_g",
      "A,2026-03-01,1,good,200",
      "A,2026-03-20,2,good,90",
      "B,2026-03-02,,good,210",
    ],
  ],
  [
    "a second flush alone",
    "Tray,Flush,Fresh g\nA,2,90\nB,2,80\n",
    ["tray_id,flush,outcome,fresh_g", "A,2,good,90", "B,2,good,80"],
  ],
  [
    "limits of a second flush",
    "Tray,Flush,Fresh g,Dry g\nA,1,200,20\nA,2,>50,\nB,1,100,10\n",
    ["tray_id,flush,outcome,fresh_g,dry_g", "A,,good,200,20", "A,2,good,>50,", "B,,good,100,10"],
  ],
  [
    "an upper limit of a second flush",
    "Tray,Flush,Fresh g\nA,1,200\nA,2,<50\nB,1,100\n",
    ["tray_id,flush,outcome,fresh_g", "A,,good,200", "A,2,good,<50", "B,,good,100"],
  ],
  [
    "both limits of a second flush",
    "Tray,Flush,Fresh g\nA,1,200\nA,2,40-50\nB,1,100\n",
    ["tray_id,flush,outcome,fresh_g", "A,,good,200", "A,2,good,40 to 50", "B,,good,100"],
  ],
  [
    "limits of trays of one flush",
    "Tray,Fresh g,Dry g\nA,>50,5\nB,40-50,<6\nC,200,20\n",
    ["tray_id,outcome,fresh_g,dry_g", "A,good,>50,5", "B,good,40 to 50,<6", "C,good,200,20"],
  ],
  [
    "what only the flushes together have",
    "Tray,Flush 1 g,Flush 2 g,Dry g,Picked\nA,200,90,29,2026-03-01\nB,210,,21,2026-03-02\n",
    [
      "tray_id,harvested_on,flush,outcome,fresh_g,dry_g",
      "A,,1,good,200,",
      "A,,2,good,90,",
      "A,2026-03-01,,good,,29",
      "B,2026-03-02,,good,210,21",
    ],
  ],
  [
    "days of flushes and the weight of all",
    "Tray,Flush 1 date,Flush 2 date,Fresh g\nA,2026-03-01,2026-03-20,290\nB,2026-03-02,,210\n",
    [
      "tray_id,harvested_on,flush,outcome,fresh_g",
      "A,2026-03-01,1,good,",
      "A,2026-03-20,2,good,",
      "A,,,good,290",
      "B,2026-03-02,,good,210",
    ],
  ],
  [
    "pools by a number and by their names, notes",
    "Tray,Fresh g,Note\nA,2 trays 310g,wet\nB-C,200,\nD,100,\n",
    ["tray_id,outcome,fresh_g,trays_in_pool,note", "A,good,310,2,wet", "B-C,good,200,,", "D,good,100,,"],
  ],
  [
    "shares in per cent, limits of days",
    "Tray,Moisture %,Days to harvest,Fresh g\nA,12.5,40,200\nB,9,38-40,210\n",
    ["tray_id,days_to_harvest,outcome,fresh_g,final_moisture_pct", "A,40,good,200,12.5", "B,38 to 40,good,210,9"],
  ],
  [
    "trays that are only planned, and their trial",
    "tray_id,inoculum_ml,planned trial,fresh_g\nA,5,t1,200\nB,10,t1,210\nC,5,t2,\n",
    ["tray_id,inoculum_ml,outcome,fresh_g,planned trial", "A,5,good,200,t1", "B,10,good,210,t1", "C,5,growing,,t2"],
  ],
  [
    "what became of trays without a weight",
    "Tray,Fresh g,Outcome\nA,,contam\nB,200,good\nC,,\n",
    ["tray_id,outcome,fresh_g", "A,contaminated,", "B,good,200", "C,growing,"],
  ],
])("a cleaned sheet has %s", async (_, text, rows) => {
  expect(await cleaned(text)).toBe(lines(...rows));
});

test("free columns stand in the order of the sheets, each once, marked where their name is that of a field", async () => {
  const free = { "columns.csv": "file,header,field\n,Strain,factor\n" };
  expect(await cleaned("Tray,Strain,Substrate,Fresh g\nA,x,straw,200\nB,y,wood,210\n", free)).toBe(
    lines(
      "tray_id,outcome,fresh_g,Strain (free column),Substrate (free column)",
      "A,good,200,x,straw",
      "B,good,210,y,wood",
    ),
  );
  expect(await cleaned("Tray,Lid,Fresh g\nA,red,200\n", { "b.csv": "Tray,Pen,Lid,Fresh g\nB,x,blue,210\n" })).toBe(
    lines("tray_id,outcome,fresh_g,Lid,Pen", "A,good,200,red,", "B,good,210,blue,x"),
  );
});

test("of columns as they were read those with a name are proposed, and what is asked about has no field yet", async () => {
  const book = await bookOf({ "a.csv": "Tray,Fresh wt,Harvest weight,Dose ml,\nA,200,210,2,x\n" });
  expect(proposeColumns(book)).toBe(
    lines(
      "file,header,field,unit,note",
      "a.csv,Tray,tray_id,,synonym",
      'a.csv,Fresh wt,,,"could be fresh_g; type the right one under field"',
      'a.csv,Harvest weight,,,"could be fresh_g; type the right one under field"',
      "a.csv,Dose ml,inoculum_ml,mL,synonym",
    ),
  );
});

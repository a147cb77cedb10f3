import { expect, test } from "vitest";
import { profileColumns } from "../../../src/cleaning/columns/profile-columns.ts";
import { tableOfText } from "../side-sheets/table-of-text.ts";
import { canonicalColumns, planned } from "./planned-columns.ts";

/** As in the table of columns and names: what a person takes columns for whose names can be two things. */
test.each([
  ["tray_id,substrate_wet_g|A,straw|B,wood", "tray_id, substrate_wet_g (g)", ""],
  ["tray_id,final_moisture_pct|A,65|B,66", "tray_id, final_moisture_pct (%)", ""],
  ["Tray,Grain,Substrate|A,rye,1000|B,oats,1000", "tray_id, factor, substrate_wet_g", "free-column: Grain: "],
  ["Tray,Grain weight|A,rye|B,oats", "tray_id, factor", "free-column: Grain weight: "],
  ["Tray,Moisture|A,0|B,0", "tray_id, final_moisture_pct", ""],
  ["Tray,Moisture|A,65 %|B,12", "tray_id, factor", "free-column: Moisture: "],
  ["Tray,Spawn (%)|A,5|B,6", "tray_id, spawn_pct (%)", ""],
  ["Tray,Spawn,Spawn (%)|A,5,6|B,6,7", "tray_id, spawn_g, spawn_pct (%)", ""],
  [
    "Tray,Spawn,Inoculum date|A,5,2026-01-01|B,6,2026-01-01",
    "tray_id, unread ? spawn_g or spawn_pct, inoculated_on",
    "column-in-doubt: Spawn: ",
  ],
  ["Trays,Fresh g|A1,200|A1,210|B,220|B,230", "tray_id, fresh_g (g)", ""],
  ["Trays,Fresh g|1,200|A,210|2,220|B,230", "tray_id, fresh_g (g)", ""],
  ["Trays,Fresh g|1,200|1,60|A,210|B,230", "tray_id, fresh_g (g)", ""],
  ["Count,Fresh g|2,200|3,210", "trays_in_pool, fresh_g (g)", "column-by-elimination: Count: trays_in_pool"],
  [
    "Date,Tray,Outcome|2026-01-01,A,good",
    "inoculated_on, tray_id, outcome",
    "column-by-elimination: Date: inoculated_on",
  ],
  ["Inoculated,Date,Tray|2026-01-01,2026-02-01,A", "inoculated_on, factor, tray_id", "second-column: Date: "],
  [
    "Date picked,Date,Tray,Fresh g|2026-02-01,2026-01-01,A,200",
    "harvested_on, inoculated_on, tray_id, fresh_g (g)",
    "column-by-elimination: Date: inoculated_on",
  ],
  ["Jar,Tray,Fresh g|J1,A,200|J1,B,210|J1,C,220|J1,D,230", "jar, tray_id, fresh_g (g)", ""],
  ["Jar,Block,Fresh g|J1,B1,200|J2,B2,210|J3,B3,220|J4,B4,230", "jar, tray_id, fresh_g (g)", ""],
  ["Jar|J1|J2|J3|J4", "tray_id", "column-by-elimination: Jar: tray_id"],
  ["Jar,Fresh g|J1,200|,210|J3,220|J4,230|J5,240", "tray_id, fresh_g (g)", "column-by-elimination: Jar: tray_id"],
  ["Tray,Gross g|A,260|B,270", "tray_id, unread ? fresh_g", "gross-weight-column: Gross g: "],
  ["Tray,Gross,Fresh wt|A,260,200", "tray_id, factor, fresh_g", "free-column: Gross: "],
  ["Tray,Brutto g|A,260", "tray_id, unread ? fresh_g", "gross-weight-column: Brutto g: "],
  [
    "Tray,Fresh with tray g,Weight with tray g|A,260,270",
    "tray_id, unread ? fresh_g, unread ? fresh_g",
    "gross-weight-column: Fresh with tray g: ; gross-weight-column: Weight with tray g: ",
  ],
  ["Tray,Note,Remarks,Comment|A,a,b,c", "tray_id, note, note, note", ""],
  [
    "Tray,Fresh wt,Fersh weigth,fresh_g|A,1,2,3",
    "tray_id, factor, factor, fresh_g (g)",
    "second-column: Fresh wt: ; second-column: Fersh weigth: ",
  ],
  ["Tray,Picked,Dried|A,,", "tray_id, harvested_on, dried_on", ""],
  ["Tray,Picked,Flush|A,1,1|B,2,2", "tray_id, fresh_g, flush", "column-by-elimination: Picked: fresh_g"],
  ["Tray,Picked,Fresh wt,Flush|A,2026-01-01,1,1", "tray_id, harvested_on, fresh_g, flush", ""],
  ["Tray,X|A,ok|B,mould|C,ok", "tray_id, outcome", "column-by-elimination: X: outcome"],
  [
    "Tray,X,Y|A,ok,red|B,mould,blue|C,ok,red",
    "tray_id, outcome, factor",
    "column-by-elimination: X: outcome; free-column: Y: ",
  ],
  ["Tray,X|A,ok|B,mould|C,12", "tray_id, unread ? outcome or note", "column-in-doubt: X: "],
  ["Tray,X|A,ok|B,mould|C,", "tray_id, outcome", "column-by-elimination: X: outcome"],
  ["Tray,Supplier|A,ok|B,mould|C,ok", "tray_id, outcome", "column-by-elimination: Supplier: outcome"],
  ["Tray,Shelf|A,mould|B,x|C,y|D,mould", "tray_id, shelf", ""],
  ["Tray,Operator|A,mould|B,ok|C,fine", "tray_id, unread ? outcome or note or operator", "column-in-doubt: Operator: "],
  [
    "Tray,Flush 1 (g),Flush 2 (g),Total (oz)|A,200,90,10",
    "tray_id, fresh_g 1 (g), fresh_g 2 (g), fresh_g (oz)",
    "column-by-elimination: Total (oz): fresh_g",
  ],
  [
    "Tray,Flush 1 (g),Flush 2 (g),Mean g|A,200,90,145",
    "tray_id, fresh_g 1 (g), fresh_g 2 (g), factor",
    "free-column: Mean g: ",
  ],
  [
    "Tray,Flush 1 dry (g),Flush 2 dry (g),Total|A,1,2,3",
    "tray_id, dry_g 1 (g), dry_g 2 (g), dry_g",
    "column-by-elimination: Total: dry_g",
  ],
  [
    "Tray,Flush 1 dry (g),Flush 2 dry (g),Flush 1 date,Total|A,1,2,2026-01-01,3",
    "tray_id, dry_g 1 (g), dry_g 2 (g), harvested_on 1, dry_g",
    "column-by-elimination: Total: dry_g",
  ],
  [
    "Tray,Flush 1 (g),Flush 1 (g) (2)|A,200,90",
    "tray_id, unread ? fresh_g, unread ? fresh_g",
    "two-columns-one-field: Flush 1 (g): ; two-columns-one-field: Flush 1 (g) (2): ",
  ],
  [",,Tray,Fresh g|,,A,200", "unread, unread, tray_id, fresh_g (g)", ""],
  // without a name words behind all else are notes; anything else is left out, and both are said
  ["Tray,|A,ok|B,mould|C,ok", "tray_id, note", "nameless-notes: : note"],
  ["Tray,|A,12|B,14|C,11", "tray_id, unread", "nameless-column: : "],
  [
    "X,Y,Fresh g|q1,r,200|q2,s,210|q3,t,220|q4,u,230",
    "tray_id, factor, fresh_g (g)",
    "column-by-elimination: X: tray_id; free-column: Y: ",
  ],
  ["X,Tray,Fresh g|q1,A,200|q2,B,210|q3,C,220|q4,D,230", "factor, tray_id, fresh_g (g)", "free-column: X: "],
  ["X,Fresh g|q1,200|q2,210|q3,220|,230|q5,240", "factor, fresh_g (g)", "free-column: X: "],
  ["X,Fresh g|ok,200|fine,210|good,220|picked,230", "factor, fresh_g (g)", "free-column: X: "],
  ["X,Fresh g|T-1,200|T-2,210|7,220|T-4,230", "factor, fresh_g (g)", "free-column: X: "],
])("%s: %s", (sheet, columns, log) => {
  const found = planned(sheet);
  expect(found.columns).toBe(columns);
  expect(found.log.join("; ")).toBe(log);
});

test("numbers follow the canonical form under a canonical name, pinned as itself or not at all", () => {
  const pin = (header: string, field: "fresh_g" | "dry_g") => ({ file: "", header, field, unit: "" });
  expect(canonicalColumns("Tray,fresh_g,Dry g|A,1,2")).toBe("fresh_g");
  expect(canonicalColumns("Tray,fresh_g,Dry g|A,1,2", [pin("fresh_g", "fresh_g"), pin("Dry g", "dry_g")])).toBe(
    "fresh_g",
  );
  expect(canonicalColumns("Tray,fresh_g|A,1", [pin("fresh_g", "dry_g")])).toBe("");
});

test("a column is looked at by its different texts, however often each stands there", async () => {
  const table = await tableOfText("tray_id,q\nA,12\nA, 12 \nB,31\nC,\nD,5 %\nE,35 %\nF,mould\nG,mould?\nH,ok\nI,x\n");
  const profile = profileColumns(table, [1]).get(1)!;
  expect(profile).toEqual({
    counts: { number: 2, empty: 1, percent: 2, text: 4 },
    filled: 9,
    distinct: 8,
    losses: 2,
    outcomes: 3,
    answers: 1,
    refusals: 0,
    areParts: false,
    high: 2,
    most: 31,
    start: [12, 12, 31, Number.NaN, 5, 35, Number.NaN, Number.NaN, Number.NaN, Number.NaN],
  });
  const ticks = await tableOfText('tray_id,q\nA,✓\nB,✗\nC,green\nD,"picked, moldy"\n');
  expect(profileColumns(ticks, [1]).get(1)).toMatchObject({ losses: 2, outcomes: 4 });
});

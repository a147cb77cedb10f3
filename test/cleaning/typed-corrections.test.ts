import { describe, expect, test } from "vitest";
import { bookOf, rulesOf } from "./book-of.ts";
import { misread, type Typed } from "./tray-lines.ts";

/** Sheets that say more beside their cells than in them: corrections, marks for "as above", titles, legends. */
const typed: Typed[] = [
  [
    "a note that corrects its own weight",
    "Tray,Dose (mL),Fresh weight (g),Notes\nB1,10,204,\nB2,10,188,\nB3,20,213,sorry meant 231\nB4,20,228,correct weight 228\n",
    "B1 10 204 - good|B2 10 188 - good|B3 20 213 - asked|B4 20 228 - good",
  ],
  [
    "a note that corrects another tray",
    "Tray;LC ml;Fresh g;Remarks\nC1;5;201;\nC2;5;190;\nC3;10;240;C1 should be 210\nC4;10;236;should be done by day 40\n",
    "C1 5 201 - asked|C2 5 190 - good|C3 10 240 - good|C4 10 236 - good",
  ],
  [
    "corrections of other trays in other words, one of them carried out",
    "Tray,LC ml,Fresh g,Notes\nA1,5,201,\nA2,5,120,\nA3,10,240,\nA4,10,263,\nA5,10,236,oops: A2 was actually 210 g\nA6,10,230,correction for A3: 204\nA7,10,228,A4 is 236 not 263\nA8,10,231,A1 should be 201\n",
    "A1 5 201 - good|A2 5 120 - asked|A3 10 240 - asked|A4 10 263 - asked|A5 10 236 - good|A6 10 230 - good|A7 10 228 - good|A8 10 231 - good",
  ],
  [
    "a correction of the tray of the same cook",
    "Batch;Tray;LC ml;Fresh g;Remarks\nA;1;5;201;\nA;2;10;240;1 should be 230\nB;1;5;198;\nB;2;10;236;\n",
    "1 (A) 5 201 - asked bA|2 (A) 10 240 - good bA|1 (B) 5 198 - good bB|2 (B) 10 236 - good bB",
  ],
  [
    "a note that says which of two weights is right",
    "Tray,LC ml,Fresh g,Notes\nA4,10,263,236 not 263\nA5,10,230,really nice 230g\nA6,5,205,should have picked 2 days earlier\n",
    "A4 10 263 - asked|A5 10 230 - good|A6 5 205 - good",
  ],
  [
    "numbers in notes that correct no weight, and smells to ignore",
    "Tray,LC ml,Fresh g,Notes\nA1,5,200,actually 2 flushes\nA2,5,205,corrected label 12\nA3,10,240,really only 3 caps\nA4,10,231,ignore the smell\nA5,10,230,ignore this row\nA6,10,228,fan at 40 not 60\n",
    "A1 5 200 - good|A2 5 205 - good|A3 10 240 - good|A4 10 231 - good|A5 10 230 - asked|A6 10 228 - good",
  ],
  [
    "weighed again, with another result, the same, and on a day",
    "Tray,LC ml,Fresh g,Dry g,Notes\n1,5,205,,reweighed 205\n2,5,190,,re-weighed: 214g\n3,10,240,,weighed again on the good scale 231\n4,10,240,24,reweighed dry 24\n5,10,238,,reweighed on 14 April\n6,5,201,,neu gewogen 210 g\n",
    "1 5 205 - good|2 5 190 - asked|3 10 240 - asked|4 10 240 24 good|5 10 238 - good|6 5 201 - asked",
  ],
  [
    "one weight for more trays than one",
    "Tray,LC ml,Fresh g,Dry g\n1,5,205,40 (both)\n2,5,199,\n3,10,240,24\n4,10,476 together,\n5,10,,\n",
    "1 5 205 - good|2 5 199 - good|3 10 240 24 good|4 10 - - asked|5 10 - - growing",
  ],
  [
    "a tray that was weighed with another, whose own row is blank",
    "Tray,LC ml,Fresh g,Notes\n1,5,410,weighed together with tray 2\n2,5,,\n3,10,240,\n4,10,,\nT5,10,460,weighed with T6 and T7\nT6,10,,\nT7,10,,\n",
    "1 5 410 - asked|2 5 - - asked|3 10 240 - good|4 10 - - growing|T5 10 460 - asked|T6 10 - - asked|T7 10 - - asked",
  ],
  [
    "as above, in words and marks",
    "Tray,Dose ml,Strain,Fresh g\nD1,5,Blue,200\nD2,↓,↓,190\nD3,as above,same as above,195\nD4,10,Blue,230\nD5,s. o.,siehe oben,225\nD6,ídem,idem,241\n",
    "D1 5 200 - good|D2 5 190 - good|D3 5 195 - good|D4 10 230 - good|D5 10 225 - good|D6 10 241 - good",
  ],
  [
    "a title with the day of the cook is no legend",
    "Batch 7 - cooked 4 Jan\nTray,ml,fresh g,dry g\n1,5,210,21\n2,5,198,20\n3,10,240,24\n4,10,,\n\nLOG\n4 Jan cooked 4 trays\n14 Feb tray 4 green - out\n",
    "1 5 210 21 good b7|2 5 198 20 good b7|3 10 240 24 good b7|4 10 - - asked b7",
  ],
  [
    "the dose changes from a line on",
    "LC 5 ml each,\nTray,Fresh g\nO1,200\nO2,205\nfrom here 15 ml,\nO3,240\nO4,246\n10 ml from now on,\nO5,230\n",
    "O1 5 200 - good|O2 5 205 - good|O3 15 240 - good|O4 15 246 - good|O5 10 230 - good",
  ],
  [
    "names that begin again in the next cook, and a loss in the second",
    "Cook,Tray,ml,Fresh g,Comment\n1,1,5,200,\n,2,5,205,\n,3,10,240,\n2,1,5,190,\n,2,10,230,\n,3,10,,green\n",
    "1 (1) 5 200 - good b1|2 (1) 5 205 - good b1|3 (1) 10 240 - good b1|1 (2) 5 190 - good b2|2 (2) 10 230 - good b2|3 (2) 10 - - contaminated b2",
  ],
  [
    "a legend of capitals on one line",
    "Tray,ml,St,Fresh g\nA1,5,H,200\nA2,5,C,\nA3,10,H,240\nA4,10,G,\nH harvested / C contaminated / G growing,,,\n",
    "A1 5 200 - good|A2 5 - - contaminated|A3 10 240 - good|A4 10 - - growing",
  ],
  [
    "a colour that stands for lost, in a line above",
    "red rows = lost to green mould,,\nTray,LC ml,Fresh g\nA1,5,201\nA2,5,210\nA3,10,\nA4,10,236\n",
    "A1 5 201 - good|A2 5 210 - good|A3 10 - - asked|A4 10 236 - good",
  ],
  [
    "colours and what they stand for in two cells below",
    "Bac;Dose ml;Frais g\nA1;5;201\nA2;5;\nA3;10;236\n;;\nrouge;= contaminé;\njaune;= lent;\n",
    "A1 5 201 - good|A2 5 - - asked|A3 10 236 - good",
  ],
  [
    "a colour that stands for what is well",
    "green = good,,\nTray,LC ml,Fresh g\nA1,5,201\nA2,5,210\nA3,10,\n",
    "A1 5 201 - good|A2 5 210 - good|A3 10 - - growing",
  ],
  [
    "a legend under a heading",
    "Key: G - good; C - contaminated; D - dumped,,,\nTray,LC ml,Res,Fresh g\nA1,5,G,200\nA2,5,C,\nA3,10,G,240\nA4,10,D,\n",
    "A1 5 200 - good|A2 5 - - contaminated|A3 10 240 - good|A4 10 - - discarded",
  ],
  [
    "a question whose yes is a loss",
    "Which tray?,How many mL did you inject?,How much did it weigh wet (g)?,Did it go green?\nA1,5,200,no\nA2,5,205,no\nA3,10,240,no\nA4,10,,yes\n",
    "A1 5 200 - good|A2 5 205 - good|A3 10 240 - good|A4 10 - - contaminated",
  ],
  [
    "still drying, by a word for growing under the dry weight",
    "Bac;Dose CL (ml);Frais (g);Sec (g)\nB1;5;205,5;20,5\nB2;5;198;19,8\nB3;10;240;en cours\nB4;10;;en cours\n",
    "B1 5 205.5 20.5 good|B2 5 198 19.8 good|B3 10 240 - good|B4 10 - - growing",
  ],
  [
    "half of a dose nobody states, and amounts with what they were worked out from",
    "Tray,LC ml,Fresh g\nP1,10,200\nP2,half,180\nP3,10 (2 shots of 5),312-45=267\nP4,5+5,205 ✓\n",
    "P1 10 200 - good|P2 - 180 - good|P3 10 267 - good|P4 10 205 - good",
  ],
  [
    "amounts added up in a column that names no unit",
    "Tray,LC dose,Fresh g\nP1,5+5,200\nP2,10,180\nP3,10 mL,240\n",
    "P1 10 200 - good|P2 10 180 - good|P3 10 240 - good",
  ],
  [
    "a table typed with bars and a line of dashes",
    "| Tray | LC ml | Fresh g | Note |\n|---|---:|:---:|---|\n| 1 | 5 | 200 | |\n| 2 | 10 | | green, out |\n| 3 | 10 | 240 | |\n",
    "1 5 200 - good|2 10 - - contaminated|3 10 240 - good",
  ],
];

describe("what stands beside the cells", () => {
  test.each(typed)("%s", async (_, text, truth) => {
    expect(misread(await bookOf({ "harvests/one.csv": text as string }), truth)).toEqual({ missing: [], left: [] });
  });

  test("a colour that stands for what does not count flags every weight", async () => {
    const { trays } = await bookOf({ "a.csv": "Tray,LC ml,Fresh g\nA1,5,201\nA2,10,90\nred = don't count,,\n" });
    expect(trays.map(({ flags }) => flags)).toEqual([["doubt-beside-rows"], ["doubt-beside-rows"]]);
  });

  test("a correction of a tray there is none of is flagged where it stands", async () => {
    const text = "Tray,LC ml,Fresh g,Remarks\nC1,5,201,\nC3,10,240,K1 should be 210\n";
    expect(rulesOf(await bookOf({ "harvests/one.csv": text }), "Remarks")).toContain("corrected-by-another-note");
  });
});

import { expect, test } from "vitest";
import { cleanedHarvestCsv } from "../../src/cleaning/cleaned-harvest-csv.ts";
import { allFacts, bookOf, harvestOf } from "./book-of.ts";
import { misread, type Typed } from "./tray-lines.ts";

/** One name in several rows, sheets, cooks, jars or doses, and the flushes of one tray. Common practice, no source. */
const typed: Typed[] = [
  [
    "halves of a split tray, by letters among plain names",
    "Tray,LC ml,Fresh g\nA1,5,201\nA2,5,210\nA3a,10,120\nA3b,10,110\nA4,10,236\n",
    "A1 5 201 - good|A2 5 210 - good|A3a 10 120/- - asked|A3b 10 110/- - asked|A4 10 236 - good",
  ],
  [
    "halves of a split tray, by words",
    "Schale;LC ml;Frisch g\n1a;5;201\n1b;5;210\n2 (linke Hälfte);10;120\n2 (rechte Hälfte);10;110\n",
    "1a 5 201 - good|1b 5 210 - good|2 (linke Hälfte) 10 120 - asked|2 (rechte Hälfte) 10 110 - asked",
  ],
  [
    "lettered names that are no halves: most have letters, or the doses differ",
    "Tray,LC ml,Fresh g\n1,5,201\n2,5,210\n3,5,199\n4a,10,120\n4b,15,236\n5a,10,230\n6b,10,231\n",
    "1 5 201 - good|2 5 210 - good|3 5 199 - good|4a 10 120 - good|4b 15 236 - good|5a 10 230 - good|6b 10 231 - good",
  ],
  [
    "same names two batches flush rows",
    "Batch,Tray,ml,Flush,Fresh g\nA,1,5,1,150\nA,1,5,2,60\nB,1,10,1,170\nB,1,10,2,66\nA,2,10,1,168\nA,2,10,2,61\n",
    "1 (A) 5 210 - good bA|1 (B) 10 236 - good bB|2 10 229 - good bA",
  ],
  [
    "two files dates",
    {
      "jan.csv": "Tray,Inoculated,ml,Fresh g\n1,2026-01-05,5,200\n2,2026-01-05,10,230\n",
      "feb.csv": "Tray,Inoculated,ml,Fresh g\n1,2026-02-05,5,205\n2,2026-02-05,10,231\n",
    },
    "1 (2026-01-05) 5 200 - good|2 (2026-01-05) 10 230 - good|1 (2026-02-05) 5 205 - good|2 (2026-02-05) 10 231 - good",
  ],
  [
    "two files no dates other dose",
    {
      "jan.csv": "Tray,ml,Fresh g\n1,5,200\n2,10,230\n",
      "feb.csv": "Tray,ml,Fresh g\n1,10,235\n2,5,205\n",
    },
    "1 (jan) 5 200 - good|2 (jan) 10 230 - good|1 (feb) 10 235 - good|2 (feb) 5 205 - good",
  ],
  [
    "setup file and harvest file",
    {
      "setup.csv": "Tray,Batch,LC ml,Inoculated\n1,A,5,2026-01-05\n2,A,10,2026-01-05\n",
      "weights.csv": "Tray,Fresh g,Dry g,Harvested\n1,200,20,2026-02-16\n2,230,23,2026-02-17\n",
    },
    "1 5 200 20 good bA h2026-02-16|2 10 230 23 good bA",
  ],
  [
    "spelled names",
    "Tray,ml,Fresh g\nT1,5,150\nt-1,5,60\nT 02,10,160\nT2,10,66\nTray 3,5,155\n3,5,61\n",
    "T1 5 - - asked|T 02 10 - - asked|Tray 3 5 - - asked",
  ],
  [
    "flush dates rise",
    "Tray,ml,Picked,Fresh g\n1,5,2026-02-10,150\n2,10,2026-02-11,170\n1,5,2026-02-24,60\n2,10,2026-02-25,66\n",
    "1 5 210 - good|2 10 236 - good",
  ],
  [
    "blank tray below = second flush",
    "Tray,ml,Picked,Fresh g\n1,5,2026-02-10,150\n,,2026-02-24,60\n2,10,2026-02-11,170\n,,2026-02-25,66\n",
    "1 5 210 - good|2 10 236 - good",
  ],
  [
    "exact duplicate row",
    "Tray,ml,Fresh g,Dry g\n1,5,200,20\n2,10,230,23\n2,10,230,23\n3,10,241,24\n",
    "1 5 200 20 good|2 10 230 23 good|3 10 241 24 good",
  ],
  ["same tray other dose", "Tray,ml,Fresh g\n1,5,200\n2,10,230\n1,10,241\n", "1 5/- 200/- - asked|2 10 230 - good"],
  [
    "reused numbers per cook via section",
    "Tray,ml,Fresh g\nCook A,,\n1,5,200\n2,10,230\nCook B,,\n1,5,190\n2,10,221\n",
    "1 (A) 5 200 - good|2 (A) 10 230 - good|1 (B) 5 190 - good|2 (B) 10 221 - good",
  ],
  [
    "reused names, batch letter in other col filled down",
    "Cook,Tray,ml,Fresh g\nA,1,5,200\n,2,10,230\nB,1,5,190\n,2,10,221\n",
    "1 (A) 5 200 - good bA|2 (A) 10 230 - good bA|1 (B) 5 190 - good bB|2 (B) 10 221 - good bB",
  ],
  [
    "reused by inoc date",
    "Inoc date,Tray,ml,Fresh g\n2026-01-05,1,5,200\n2026-01-05,2,10,230\n2026-02-05,1,5,190\n2026-02-05,2,10,221\n",
    "? 5 200 - good|? 10 230 - good|? 5 190 - good|? 10 221 - good",
  ],
  [
    "replicate column",
    "Dose ml,Rep,Fresh g\n5,1,200\n5,2,205\n10,1,230\n10,2,228\n",
    "? 5 200 - good|? 5 205 - good|? 10 230 - good|? 10 228 - good",
  ],
  [
    "no tray name at all",
    "LC ml,Fresh g,Dry g\n5,200,20\n5,205,21\n10,230,23\n10,230,23\n",
    "? 5 200 20 good|? 5 205 21 good|? 10 230 23 good|? 10 230 23 good",
  ],
  [
    "1st pick 2nd pick rows",
    "Tray,ml,Pick,Fresh g\n1,5,1st,150\n1,5,2nd,60\n2,10,1st,170\n2,10,2nd,66\n",
    "1 5 210 - good|2 10 236 - good",
  ],
  ["Pick 1st / 2nd header", "Tray,ml,Pick 1st,Pick 2nd\n1,5,150,60\n2,10,170,66\n", "1 5 210 - good|2 10 236 - good"],
  [
    "tray a b halves",
    "Tray,ml,Fresh g\n1a,5,100\n1b,5,110\n2a,10,120\n2b,10,121\n",
    "1a 5 100 - good|1b 5 110 - good|2a 10 120 - good|2b 10 121 - good",
  ],
  [
    "jar+tray",
    "Jar,Tray,ml,Fresh g\nJ1,1,5,200\nJ1,2,10,230\nJ2,1,5,190\nJ2,2,10,221\n",
    "? 5 200 - good|? 10 230 - good|? 5 190 - good|? 10 221 - good",
  ],
  [
    "stacked titles with strain",
    "Strain: Blue,,\nTray,ml,Fresh g\n1,5,200\n2,10,230\n,,\nStrain: Pink,,\nTray,ml,Fresh g\n1,5,190\n2,10,221\n",
    "? 5 200 - good|? 10 230 - good|? 5 190 - good|? 10 221 - good",
  ],
  [
    "stacked titles dose",
    "5 ml,\nTray,Fresh g\n1,200\n2,210\n,\n10 ml,\nTray,Fresh g\n1,230\n2,231\n",
    "? 5 200 - good|? 5 210 - good|? 10 230 - good|? 10 231 - good",
  ],
  [
    "serials across cooks year",
    {
      "2025/h.csv": "Tray,ml,Harvested,Fresh g\n1,5,2025-11-02,200\n2,10,2025-11-03,230\n",
      "2026/h.csv": "Tray,ml,Harvested,Fresh g\n1,5,2026-02-02,204\n2,10,2026-02-03,233\n",
    },
    "1 5 - - asked|2 10 - - asked",
  ],
  [
    "a tray lost in one cook, of a name picked in the next",
    {
      "cook 1.csv": "Tray,Strain,Fresh g\n1,K1,205\n2,K2,211\n3,K1,moldy\n4,,moldy\n",
      "cook 2.csv": "Tray,Strain,Fresh g\n1,K1,235\n2,K2,241\n3,K1,238\n4,,240\n",
    },
    "1 (1) - 205 - good|2 (1) - 211 - good|3 (1) - - - contaminated|4 (1) - - - contaminated|1 (2) - 235 - good|2 (2) - 241 - good|3 (2) - 238 - good|4 (2) - 240 - good",
  ],
  [
    "a sheet of trays, and a log of pickings with a bare date",
    {
      "trays.csv": "Tray,Injected,mL\n1,3 Mar 2026,5\n2,3 Mar 2026,8\n3,3 Mar 2026,8\n",
      "log.csv": "Date,Tray,Grams\n20 Apr 2026,1,120\n20 Apr 2026,2,131\n2 May 2026,1,45\n",
    },
    "1 5 165 - good h2026-04-20|2 8 131 - good h2026-04-20|3 8 - - growing/asked",
  ],
  [
    "a sheet of trays with the first day of picking, a log of pickings, and one of dry weights",
    {
      "trays.csv": "Tray,Injected,mL,Picked\n1,3 Mar 2026,5,20 Apr 2026\n2,3 Mar 2026,8,\n",
      "log.csv": "Picked on,Tray,Fresh g\n20 Apr 2026,1,120\n20 Apr 2026,2,131\n2 May 2026,1,45\n",
      "dry.csv": "Tray,Dry g\n1,16\n2,13\n",
    },
    "1 5 165 16 good h2026-04-20|2 8 131 13 good h2026-04-20",
  ],
  [
    "a bare date beside a dose may be of either",
    "Date,Tray,ml,Fresh g\n2026-03-01,1,5,205\n2026-03-01,2,8,240\n",
    "1 5 205 - good hNONE iNONE|2 8 240 - good hNONE iNONE",
  ],
  [
    "name with batch prefix and batch",
    "Batch,Tray,ml,Fresh g\nA,A1,5,200\nA,A2,10,230\nB,B1,5,190\nB,B2,10,221\n",
    "A1 5 200 - good bA|A2 10 230 - good bA|B1 5 190 - good bB|B2 10 221 - good bB",
  ],
  [
    "lost flush row",
    "Tray,ml,Flush,Fresh g,Outcome\n1,5,1,150,good\n1,5,2,,contam\n2,10,1,170,good\n2,10,2,66,good\n3,10,1,,contam\n",
    "1 5 150 - good|2 10 236 - good|3 10 - - lost",
  ],
  [
    "flush total col beside",
    "Tray,ml,Flush 1 g,Flush 2 g,Total g\n1,5,150,60,210\n2,10,170,66,236\n3,10,160,,160\n",
    "1 5 210 - good|2 10 236 - good|3 10 160 - good",
  ],
  [
    "total not equal",
    "Tray,ml,Flush 1 g,Flush 2 g,Total g\n1,5,150,60,210\n2,10,170,66,263\n3,10,160,,160\n",
    "1 5 210 - good|2 10 236/263/- - ?|3 10 160 - good",
  ],
  [
    "en tray letter case",
    "Tray,ml,Fresh g\na,5,200\nA,5,205\nb,10,230\nB,10,232\n",
    "a 5/- 200/405/- - ?|b 10/- 230/462/- - ?",
  ],
  [
    "a sheet of starts, and a log of pickings that calls its trays otherwise",
    {
      "start.csv":
        "Tray,LC ml,Inoculated,Notes\nT01,5,2026-03-02,\nT02,5,2026-03-02,\nT03,10,2026-03-02,\nT04,10,2026-03-02,contam 3/15\n",
      "picks.csv":
        "Date,Tray,Flush,Fresh g\n2026-04-14,T1,1,150\n2026-04-14,tray 2,1,195\n2026-04-15,t3,1,220\n2026-04-28,T 1,2,60\n2026-04-28,Tray 02,2,70\n2026-04-29,T-3,2,85\n",
    },
    "T1 5 210 - good|T02 5 265 - good|t3 10 305 - good|T04 10 - - contaminated",
  ],
  [
    "bags by a letter and by the word",
    {
      "start.csv": "Bag,LC ml\nB1,5\nB2,10\n",
      "harvest.csv": "Bag,Fresh g\nBag 1,210\nBag 2,250\n",
    },
    "? 5 210 - good|? 10 250 - good",
  ],
  [
    "numbers with and without a word for them",
    {
      "start.csv": "Tray,LC ml\n#1,5\n#2,10\n#3,10\n",
      "harvest.csv": "Tray,Fresh g\n1,210\nNo. 2,250\nno 3,240\n",
    },
    "? 5 210 - good|? 10 250 - good|? 10 240 - good",
  ],
  [
    "names with their batch in one sheet of two",
    {
      "start.csv": "Batch,Tray,LC ml\n7,1,5\n7,2,10\n",
      "harvest.csv": "Tray,Fresh g\n7-1,210\n7-2,250\n",
    },
    "? 5 210 - good|? 10 250 - good",
  ],
  [
    "dry weights under other names",
    {
      "main.csv": "Tray,LC ml,Fresh g\nT1,5,210\nT2,10,250\n",
      "dry.csv": "Tray,Dry g\n1,21\n2,25\n",
    },
    "T1 5 210 21 good|T2 10 250 25 good",
  ],
  [
    "losses under other names",
    {
      "main.csv": "Tray,LC ml,Fresh g\nT1,5,210\nT2,10,250\nT3,10,\n",
      "losses.csv": "Tray,Lost on,Why\ntray 3,2026-03-14,contam\n",
    },
    "T1 5 210 - good|T2 10 250 - good|T3 10 - - lost",
  ],
  [
    "weights under names that no start has",
    {
      "main.csv": "Tray,LC ml\nT1,5\nT2,10\n",
      "w.csv": "Tray,Fresh g\nx9,210\nx8,250\n",
    },
    "T1 5 - - growing|T2 10 - - growing|x9 - 210 - good|x8 - 250 - good",
  ],
  [
    "numbers that trays of two cooks have",
    {
      "main.csv": "Batch,Tray,LC ml\nA,T1,5\nA,T2,10\nB,T1,5\nB,T2,10\n",
      "w.csv": "Tray,Fresh g\n1,210\n2,250\n",
    },
    "T1 (A) 5 - - growing|T2 (A) 10 - - growing|T1 (B) 5 - - growing|T2 (B) 10 - - growing|1 - 210 - good|2 - 250 - good",
  ],
  [
    "the cook in a name, and in a column",
    {
      "main.csv": "Tray,LC ml\nA1,5\nA2,10\nB1,5\nB2,10\n",
      "w.csv": "Cook,Tray,Fresh g\nA,1,210\nA,2,250\nB,1,200\nB,2,240\n",
    },
    "A1 5 210 - good|A2 10 250 - good|B1 5 200 - good|B2 10 240 - good",
  ],
  [
    "weights of trays whose start is written nowhere, beside a whole sheet",
    {
      "main.csv": "Tray,LC ml,Fresh g\nT1,5,210\nT2,10,250\n",
      "old.csv": "Tray,Fresh g\nold1,200\nold2,190\n",
    },
    "T1 5 210 - good|T2 10 250 - good|old1 - 200 - good|old2 - 190 - good",
  ],
  [
    "weights without the cook that names begin again in",
    {
      "main.csv": "Batch,Tray,LC ml\nA,T1,5\nA,T2,10\nB,T1,5\nB,T2,10\n",
      "w.csv": "Tray,Fresh g\nT1,210\nT2,250\n",
    },
    "T1 (A) 5 - - growing|T2 (A) 10 - - growing|T1 (B) 5 - - growing|T2 (B) 10 - - growing|T1 (row 2 of w) - 210 - good|T2 (row 3 of w) - 250 - good",
  ],
  [
    "weights picked before the other cook was started",
    {
      "main.csv":
        "Batch,Started,Tray,LC ml\nA,2026-01-05,T1,5\nA,2026-01-05,T2,10\nB,2026-03-02,T1,5\nB,2026-03-02,T2,10\n",
      "w.csv": "Tray,Picked,Fresh g\nT1,2026-02-14,210\nT2,2026-02-14,250\n",
    },
    "T1 (A) 5 210 - good|T2 (A) 10 250 - good|T1 (B) 5 - - growing|T2 (B) 10 - - growing",
  ],
  [
    "a sheet of cooks, and one of trays",
    {
      "cooks.csv": "Batch,Cooked on,LC ml,Strain\nA,2026-03-01,5,Blue\nB,2026-03-08,10,Blue\n",
      "one.csv":
        "Batch,Tray,Inoculated,Fresh g\nA,1,2026-03-03,210\nA,2,2026-03-03,205\nB,3,2026-03-10,240\nB,4,2026-03-10,235\n",
    },
    "1 5 210 - good bA|2 5 205 - good bA|3 10 240 - good bB|4 10 235 - good bB",
  ],
  [
    "a sheet that says what groups got",
    {
      "one.csv": "Tray,Group,Fresh g\n1,A,210\n2,B,240\n3,C,250\n4,A,200\n",
      "groups.csv": "Group,LC ml\nA,5\nB,10\nC,15\n",
    },
    "1 5 210 - good|2 10 240 - good|3 15 250 - good|4 5 200 - good",
  ],
  [
    "a sheet that says what marks stand for",
    {
      "one.csv": "Tray,Treatment,Fresh g\n1,T1,210\n2,T2,240\n3,T3,250\n4,T1,200\n",
      "key.csv": "Treatment,Description\nT1,5 ml LC\nT2,10 ml LC\nT3,15 ml LC\n",
    },
    "1 5 210 - good|2 10 240 - good|3 15 250 - good|4 5 200 - good",
  ],
  [
    "a sheet of jars",
    {
      "jars.csv": "Jar,Made on,Generation,Strain\nJ1,2026-02-01,G1,Blue\nJ2,2026-02-08,G2,Blue\n",
      "one.csv": "Tray,Jar,LC ml,Fresh g\n1,J1,5,210\n2,J2,10,240\n",
    },
    "1 5 210 - good|2 10 240 - good",
  ],
  [
    "a sheet of cooks called Batch A",
    {
      "cooks.csv": "Batch,Cooked on,Substrate g\nBatch A,2026-03-01,500\nBatch B,2026-03-08,550\n",
      "one.csv": "Batch,Tray,LC ml,Fresh g\nA,1,5,210\nA,2,5,205\nB,3,10,240\nB,4,10,235\n",
    },
    "1 5 210 - good|2 5 205 - good|3 10 240 - good|4 10 235 - good",
  ],
  [
    "a sheet of cooks with their trays counted, one of which no tray is told of",
    {
      "cooks.csv":
        "Cook,Date,Trays,LC ml,Bran g,Notes\nA,2026-03-01,2,5,20,smelled good\nB,2026-03-08,2,10,20,\nC,2026-03-15,2,15,20,\n",
      "one.csv": "Cook,Tray,Fresh g,Outcome\nA,1,210,good\nA,2,205,good\nB,3,240,good\nB,4,,contam\n",
    },
    "1 5 210 - good bA|2 5 205 - good bA|3 10 240 - good bB|4 10 - - contaminated bB|row 4 of cooks.csv 15 - - growing x2",
  ],
  [
    "two rows of a cook say nothing of its trays",
    {
      "cooks.csv": "Cook,LC ml\nA,5\nA,10\n",
      "one.csv": "Cook,Tray,Fresh g\nA,1,210\nA,2,205\n",
    },
    "? 5 - - growing|? 10 - - growing|1 - 210 - good|2 - 205 - good",
  ],
  [
    "rows of cooks with weights are no key",
    {
      "cooks.csv": "Cook,LC ml,Trays weighed,Fresh g\nA,5,5,1050\n",
      "one.csv": "Cook,Tray,Fresh g\nB,1,210\nB,2,205\n",
    },
    "? 5 1050 - good x5|1 - 210 - good|2 - 205 - good",
  ],
  [
    "a sheet of cooks that leaves one out",
    {
      "cooks.csv": "Cook,LC ml\n1,5\n",
      "trays.csv": "Tray,Cook,Fresh g\n1,1,210\n2,2,240\n3,1,200\n",
    },
    "1 5 210 - good|2 - 240 - good|3 5 200 - good",
  ],
  [
    "a sheet of tents",
    {
      "tents.csv": "Tent,Temp C,LC ml\nA,22,\nB,19,\n",
      "trays.csv": "Tray,Tent,LC ml,Fresh g\n1,A,5,210\n2,B,10,240\n",
    },
    "1 5 210 - good|2 10 240 - good",
  ],
  [
    "a sheet of strains with their doses",
    {
      "strains.csv": "Strain,LC ml\nBlue,5\nGold,10\n",
      "trays.csv": "Tray,Strain,Fresh g\n1,Blue,210\n2,Gold,240\n",
    },
    "1 5 210 - good|2 10 240 - good",
  ],
  [
    "remarks on a cook are of none of its trays",
    {
      "cooks.csv": "Cook,LC ml,Remarks\n1,5,one tray went green\n2,10,\n",
      "trays.csv": "Tray,Cook,Fresh g\n1,1,210\n2,2,240\n",
    },
    "1 5 210 - good|2 10 240 - good",
  ],
];

test.each(typed)("%s", async (_, sheets, truth) => {
  const book = await bookOf(typeof sheets === "string" ? { "harvests/one.csv": sheets } : sheets);
  expect(misread(book, truth)).toEqual({ missing: [], left: [] });
  expect(book.account?.lost).toBe(0);
  expect(allFacts(await harvestOf(cleanedHarvestCsv(book)))).toEqual(allFacts(book));
});

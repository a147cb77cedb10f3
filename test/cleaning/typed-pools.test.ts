import { expect, test } from "vitest";
import { cleanedHarvestCsv } from "../../src/cleaning/cleaned-harvest-csv.ts";
import { allFacts, bookOf, harvestOf } from "./book-of.ts";
import { misread, type Typed } from "./tray-lines.ts";

/** Rows that sum up others or set an aim, and rows of several trays, as growers type them. Common practice, no source. */
const typed: Typed[] = [
  [
    "so many trays of so many, by a stroke",
    "Batch,Trays,LC ml,Fresh g\nA,5/6,5,1050\nB,6/6,10,1440\nC,4/6,5,800\n",
    "? 5 1050 - good x5|? 5 - - discarded x1|? 10 1440 - good x6|? 5 800 - good x4|? 5 - - discarded x2",
  ],
  [
    "the same under a name for one tray",
    "Bag,LC ml,Fresh g\n5/6,5,1050\n6/6,10,1440\n4/6,10,840\n",
    "5/6 5 - - asked|6/6 10 - - asked|4/6 10 - - asked",
  ],
  [
    "trays numbered out of all",
    "Trays,LC ml,Fresh g\n1/12,5,205\n2/12,5,198\n3/12,10,231\n4/12,10,240\n",
    "1/12 5 205 - good|2/12 5 198 - good|3/12 10 231 - good|4/12 10 240 - good",
  ],
  [
    "trays of cooks by a stroke",
    "Tray,LC ml,Fresh g\n9/10,5,205\n9/11,5,198\n10/10,10,231\n10/11,10,240\n",
    "9/10 5 205 - good|9/11 5 198 - good|10/10 10 231 - good|10/11 10 240 - good",
  ],
  [
    "trays lost of each row",
    "Batch,Trays,Lost,LC ml,Fresh g\nA,6,1,4,1050\nB,6,0,8,1440\nC,6,2,4,840\n",
    "? 4 1050 - good x5|? 4 - - discarded x1|? 8 1440 - good x6|? 4 840 - good x4|? 4 - - discarded x2",
  ],
  [
    "trays lost, French, by its header a loss",
    "Lot;Barquettes;Perdues;Dose ml;Poids frais total g\nA;6;1;4;1050\nB;6;0;8;1440\nC;5;;4;900\n",
    "? 4 1050 - good x5|? 4 - - discarded x1|? 8 1440 - good x6|? 4 900 - good x5",
  ],
  [
    "all trays of a row lost, or more than there were",
    "Batch,Trays,Contam,LC ml,Fresh g\nA,6,6,4,\nB,6,0,8,1440\nC,6,8,4,840\n",
    "? 4 - - contaminated x6|? 8 1440 - good x6|? 4 840/- - asked x6",
  ],
  [
    "trays lost, weights of each",
    "Batch,Trays,Lost,LC ml,Fresh g per tray\nA,6,1,4,210\nB,6,0,8,240\nC,5,,8,238\n",
    "? 4 1050 - good x5|? 4 - - discarded x1|? 8 1440 - good x6|? 8 1190 - good x5",
  ],
  [
    "total per cook in batch col",
    "Batch,Tray,ml,Fresh g,Dry g\nA,1,5,200,20\nA,2,10,220,22\nA total,,,420,42\nB,3,5,190,19\nB,4,10,230,23\nB total,,,420,42\nGrand total,,,840,84\n",
    "1 5 200 20 good|2 10 220 22 good|3 5 190 19 good|4 10 230 23 good",
  ],
  [
    "average inline after each dose, no label",
    "Tray,ml,Fresh g,Dry g\n1,5,200,20\n2,5,210,22\n,,205,21\n3,10,230,23\n4,10,240,25\n,,235,24\n",
    "1 5 200 20 good|2 5 210 22 good|3 10 230 23 good|4 10 240 25 good",
  ],
  [
    "n, mean, sd, cv",
    "Tray,ml,Fresh g,Dry g\n1,5,200,20\n2,5,210,22\n3,10,230,23\n4,10,240,25\nn,,4,4\nmean,,220,22.5\nsd,,18.3,2.1\nCV%,,8.3,9.3\nSE,,9.1,1.0\n",
    "1 5 200 20 good|2 5 210 22 good|3 10 230 23 good|4 10 240 25 good",
  ],
  [
    "dashes row and equals",
    "Tray,ml,Fresh g\n1,5,200\n2,5,210\n3,10,230\n-----,-----,-----\n=,,640\n",
    "1 5 200 - good|2 5 210 - good|3 10 230 - good",
  ],
  [
    "label in notes",
    "Tray,ml,Fresh g,Notes\n1,5,200,\n2,5,210,\n3,10,230,\n,,640,<- total\n,,213,avg\n",
    "1 5 200 - good|2 5 210 - good|3 10 230 - good",
  ],
  [
    "total on top",
    "Tray,ml,Fresh g\nTOTAL,,640\n1,5,200\n2,5,210\n3,10,230\n",
    "1 5 200 - good|2 5 210 - good|3 10 230 - good",
  ],
  [
    "last row lbs conversion",
    "Tray,ml,Fresh g\n1,5,200\n2,5,210\n3,10,230\nTotal g,,640\nTotal lb,,1.41\n",
    "1 5 200 - good|2 5 210 - good|3 10 230 - good",
  ],
  [
    "average with dose given",
    "Tray,ml,Fresh g,Dry g\n1,5,200,20\n2,5,210,22\navg 5,5,205,21\n3,10,230,23\n4,10,240,25\navg 10,10,235,24\n",
    "1 5 200 20 good|2 5 210 22 good|3 10 230 23 good|4 10 240 25 good",
  ],
  [
    "de Mittelwert and Gesamt",
    "Charge;Schale;Dosis ml;Frisch g;Trocken g\nA;1;5;200;20\nA;2;10;220;22\n;Mittel A;;210;21\nB;3;5;190;19\nB;4;10;230;23\n;Mittel B;;210;21\nGesamt;;;840;84\n",
    "1 5 200 20 good|2 10 220 22 good|3 5 190 19 good|4 10 230 23 good",
  ],
  [
    "fr moyenne",
    "bac;dose ml;frais g;sec g\n1;5;200;20\n2;10;220;22\nMoy.;;210;21\nÉcart-type;;14,1;1,4\nNb;;2;2\n",
    "1 5 200 20 good|2 10 220 22 good",
  ],
  [
    "es promedio",
    "bandeja;dosis ml;fresco g;seco g\n1;5;200;20\n2;10;220;22\nPROMEDIO;;210;21\nSUMA;;420;42\nDesv. est.;;14,1;1,4\n",
    "1 5 200 20 good|2 10 220 22 good",
  ],
  [
    "it media",
    "vaschetta;dose ml;fresco g;secco g\n1;5;200;20\n2;10;220;22\nMedia;;210;21\nTotale;;420;42\nDev. st.;;14,1;1,4\n",
    "1 5 200 20 good|2 10 220 22 good",
  ],
  [
    "nl gemiddelde",
    "bak;dosis ml;vers g;droog g\n1;5;200;20\n2;10;220;22\nGem.;;210;21\nTotaal;;420;42\nSt.dev;;14,1;1,4\n",
    "1 5 200 20 good|2 10 220 22 good",
  ],
  [
    "pl",
    "taca;dawka ml;świeża g;sucha g\n1;5;200;20\n2;10;220;22\nŚr.;;210;21\nSuma;;420;42\nOdch. stand.;;14,1;1,4\n",
    "1 5 200 20 good|2 10 220 22 good",
  ],
  [
    "pt",
    "bandeja;dose ml;fresco g;seco g\n1;5;200;20\n2;10;220;22\nMédia;;210;21\nSoma;;420;42\nDesvio padrão;;14,1;1,4\n",
    "1 5 200 20 good|2 10 220 22 good",
  ],
  [
    "sum that counts lost",
    "Tray,ml,Fresh g,Notes\n1,5,200,\n2,5,,trich\n3,10,230,\n4,10,,tossed\nPicked 2 of 4,,430,50 % lost\n",
    "1 5 200 - good|2 5 - - lost|3 10 230 - good|4 10 - - lost",
  ],
  [
    "running total column",
    "Tray,ml,Fresh g,Running total\n1,5,200,200\n2,5,210,410\n3,10,230,640\n",
    "1 5 200 - good|2 5 210 - good|3 10 230 - good",
  ],
  [
    "one tray equal to sum of two",
    "Tray,ml,Fresh g,Dry g\n1,5,100,10\n2,5,110,11\n3,10,210,21\n4,10,190,19\n",
    "1 5 100 10 good|2 5 110 11 good|3 10 210 21 good|4 10 190 19 good",
  ],
  [
    "one tray equal to the mean",
    "Tray,ml,Fresh g,Dry g\n1,5,200,20\n2,5,220,22\n3,10,210,21\n4,10,190,19\n",
    "1 5 200 20 good|2 5 220 22 good|3 10 210 21 good|4 10 190 19 good",
  ],
  [
    "sum of only one column, unnamed row",
    "Tray,ml,Fresh g,Dry g,Notes\n1,5,200,20,ok\n2,5,210,21,ok\n3,10,230,23,ok\n,,640,,\n",
    "1 5 200 20 good|2 5 210 21 good|3 10 230 23 good",
  ],
  [
    "wrong sum (old)",
    "Tray,ml,Fresh g\n1,5,200\n2,5,210\n3,10,230\nTotal,,410\n",
    "1 5 200 - good|2 5 210 - good|3 10 230 - good",
  ],
  [
    "totals in kg",
    "Tray,ml,Fresh g\n1,5,200\n2,5,210\n3,10,230\nSum,,0.64 kg\n",
    "1 5 200 - good|2 5 210 - good|3 10 230 - good",
  ],
  [
    "target row",
    "Tray,ml,Fresh g,Dry g\ntarget,,250,25\n1,5,200,20\n2,10,210,21\nlast year,,190,19\n",
    "1 5 200 20 good|2 10 210 21 good",
  ],
  [
    "price row below",
    "Tray,ml,Fresh g\n1,5,200\n2,10,230\nTotal,,430\n@ $0.04/g,,17.20\n",
    "1 5 200 - good|2 10 230 - good",
  ],
  [
    "tray named like avg",
    "Tray,ml,Fresh g\nMaxi 1,5,200\nMaxi 2,5,210\nMini 1,10,150\nMini 2,10,160\n",
    "Maxi 1 5 200 - good|Maxi 2 5 210 - good|Mini 1 10 150 - good|Mini 2 10 160 - good",
  ],
  ["range & note", "Trays,ml,Fresh g\n1-4,5,820\n5-8,10,940\n", "1-4 5 820 - good x4|5-8 10 940 - good x4"],
  [
    "words to",
    "Tray,ml,Fresh g\nA1 to A4,5,820\nA5 thru A8,10,940\nA9 & A10,15,480\n",
    "A1 to A4 5 820 - good x4|A5 thru A8 10 940 - good x4|A9 & A10 15 480 - good x2",
  ],
  [
    "de bis und",
    "Schale;Dosis ml;Frisch g\n1 bis 4;5;820\n5 und 6;10;470\n7 u. 8;15;480\n",
    "1 bis 4 5 820 - good x4|5 und 6 10 470 - good x2|7 u. 8 15 480 - good x2",
  ],
  ["fr", "bac;dose ml;frais g\n1 à 4;5;820\n5 et 6;10;470\n", "1 à 4 5 820 - good x4|5 et 6 10 470 - good x2"],
  ["es", "bandeja;dosis ml;fresco g\n1 a 4;5;820\n5 y 6;10;470\n", "1 a 4 5 820 - good x4|5 y 6 10 470 - good x2"],
  [
    "it",
    "vaschetta;dose ml;fresco g\nda 1 a 4;5;820\n5 e 6;10;470\n",
    "da 1 a 4 5 820 - good x4|5 e 6 10 470 - good x2",
  ],
  ["nl", "bak;dosis ml;vers g\n1 t/m 4;5;820\n5 en 6;10;470\n", "1 t/m 4 5 820 - good x4|5 en 6 10 470 - good x2"],
  ["pl", "taca;dawka ml;świeża g\n1 do 4;5;820\n5 i 6;10;470\n", "1 do 4 5 820 - good x4|5 i 6 10 470 - good x2"],
  ["pt", "bandeja;dose ml;fresco g\n1 a 4;5;820\n5 e 6;10;470\n", "1 a 4 5 820 - good x4|5 e 6 10 470 - good x2"],
  ["4 trays as name", "Tray,ml,Fresh g\n4 trays,5,820\n3 trays,10,700\n", "? 5 820 - good x4|? 10 700 - good x3"],
  [
    "x4",
    "Tray,ml,Fresh g\nA x4,5,820\nB x4,10,940\nC (4),15,960\n",
    "A x4 5 820 - good x4|B x4 10 940 - good x4|C (4) 15 960 - ?",
  ],
  [
    "count header qty",
    "Batch,ml,Qty,Fresh g\nA,5,4,820\nA,10,4,940\nB,5,6,1180\n",
    "? 5 820 - good x4|? 10 940 - good x4|? 5 1180 - good x6",
  ],
  [
    "no. of trays",
    "Cook,No. of trays,LC ml,Total fresh g,Total dry g\nA,4,5,820,82\nA,4,10,940,95\nB,6,5,1180,118\n",
    "? 5 820 82 good x4|? 10 940 95 good x4|? 5 1180 118 good x6",
  ],
  [
    "anzahl schalen",
    "Charge;Anzahl Schalen;Dosis ml;Frisch g gesamt\nA;4;5;820\nB;4;10;940\n",
    "? 5 820 - good x4|? 10 940 - good x4",
  ],
  [
    "liczba tac",
    "Partia;Liczba tac;Dawka ml;Świeża g\nA;4;5;820\nB;4;10;940\n",
    "? 5 820 - good x4|? 10 940 - good x4",
  ],
  [
    "range with lost",
    "Tray,ml,Fresh g,Notes\n1-4,5,620,3 lost its lid\n5-8,10,700,#7 contaminated\n9,15,240,\n",
    "1-4 5 620 - good x4|5-8 10 700 - ?|9 15 240 - good",
  ],
  [
    "date-like names",
    "Tray,ml,Fresh g\n3/1,5,200\n3/2,5,210\n3/3,10,230\n3/4,10,240\n",
    "3/1 5 200 - good x1|3/2 5 210 - good x1|3/3 10 230 - good x1|3/4 10 240 - good x1",
  ],
  [
    "hyphenated names cook-tray",
    "Tray,ml,Fresh g\n12-1,5,200\n12-2,5,210\n12-3,10,230\n13-1,5,205\n13-2,10,231\n",
    "12-1 5 200 - good x1|12-2 5 210 - good x1|12-3 10 230 - good x1|13-1 5 205 - good x1|13-2 10 231 - good x1",
  ],
  [
    "A-B names",
    "Tray,ml,Fresh g\nA-1,5,200\nA-2,10,210\nB-1,5,230\nB-2,10,240\n",
    "A-1 5 200 - good x1|A-2 10 210 - good x1|B-1 5 230 - good x1|B-2 10 240 - good x1",
  ],
  [
    "ampersand list with per-tray weights",
    "Tray,ml,Fresh g\n1 & 2,5,200 each\n3 & 4,10,115 + 118\n",
    "1 & 2 5 400 - good x2|3 & 4 10 233 - good x2",
  ],
  [
    "pool in note",
    "Tray,ml,Fresh g,Notes\n1,5,410,weighed with 2\n2,5,,weighed with 1\n3,10,230,\n4,10,240,\n",
    "1 5 410 - asked|2 5 - - asked|3 10 230 - good|4 10 240 - good",
  ],
  [
    "pool in dry",
    "Tray,ml,Fresh g,Dry g\n1,5,200,\n2,5,210,41 (1+2)\n3,10,230,23\n",
    "1 5 200 - ?|2 5 210 - ?|3 10 230 23 good",
  ],
  [
    "ditto of pool",
    'Tray,ml,Fresh g\n1,5,410\n2,5,"\n3,10,230\n4,10,240\n',
    "1 5 410 - ?|2 5 410/- - ?|3 10 230 - good|4 10 240 - good",
  ],
  ["overlapping pool", "Tray,ml,Fresh g\n1-4,5,820\n3,5,200\n", "1-4 5 - - asked|3 5 200 - good"],
  [
    "1..4",
    "Tray,ml,Fresh g\n1..4,5,820\n5–8,10,940\n9—12,15,980\n",
    "1..4 5 820 - good x4|5–8 10 940 - good x4|9—12 15 980 - good x4",
  ],
  ["# prefix", "Tray,ml,Fresh g\n#1-#4,5,820\n#5-#8,10,940\n", "#1-#4 5 820 - good x4|#5-#8 10 940 - good x4"],
  [
    "all/rest",
    "Tray,ml,Fresh g\n1,5,200\n2,5,210\nrest (6),10,1400\n",
    "1 5 200 - good|2 5 210 - good|rest (6) 10 1400 - ?",
  ],
  [
    "count of fruits",
    "Tray,ml,Count,Fresh g\nT1,5,12,210\nT2,10,14,230\nT3,10,9,233\n",
    "T1 5 210 - good x1|T2 10 230 - good x1|T3 10 233 - good x1",
  ],
  [
    "anzahl der pilze",
    "Schale;ml;Stück;Frisch g\nT1;5;12;210\nT2;10;14;230\nT3;10;9;233\n",
    "T1 5 210 - good x1|T2 10 230 - good x1|T3 10 233 - good x1",
  ],
  [
    "no. of fruits",
    "Tray,ml,No. of fruits,Fresh g\nT1,5,12,210\nT2,10,14,230\n",
    "T1 5 210 - good x1|T2 10 230 - good x1",
  ],
  [
    "4 trays twice",
    "Tray,ml,Fresh g\n4 trays,5,820\n4 trays,10,900\n3 bags,15,700\n",
    "? 5 820 - good x4|? 10 900 - good x4|? 15 700 - good x3",
  ],
  ["4 Schalen", "Schale;ml;Frisch g\n4 Schalen;5;820\n3 Schalen;10;700\n", "? 5 820 - good x4|? 10 700 - good x3"],
  [
    "control without dose",
    "Tray,ml,Fresh g\nT1,5,200\nT2,10,230\nT3,10,231\ncontrol,,180\n",
    "T1 5 200 - good|T2 10 230 - good|T3 10 231 - good",
  ],
  [
    "word names one dose missing",
    "Tray,ml,Fresh g\nRose,5,200\nDaisy,10,230\nLily,,231\n",
    "Rose 5 200 - good|Daisy 10 230 - good|Lily - 231 - good",
  ],
  [
    "counts of trays started and harvested",
    "Batch,Dose,Started,Harvested,Fresh total (g)\nA,5 ml,6,5,1050\nB,8 ml,6,6,1440\n",
    "? 5 1050 - good x5|? 5 - - lost x1|? 8 1440 - good x6",
  ],
  [
    "counts of trays, and of those picked",
    'Batch,Dose,Trays,Picked,Fresh (g)\nA,5 ml,6,5,"1,050 g"\nB,8 ml,6,6,"1,440 g"\n',
    "? 5 1050 - good x5|? 5 - - lost x1|? 8 1440 - good x6",
  ],
  [
    "pickings by number beside a count of trays",
    "Batch,Dose,Trays,Picked,Fresh (g)\nA,5 ml,6,1,850\nA,5 ml,6,2,300\nB,8 ml,6,1,900\nB,8 ml,6,2,340\n",
    "? 5 ? - good x6|? 5 ? - good x6|? 8 ? - good x6|? 8 ? - good x6",
  ],
  [
    "a legend of words for doses under the rows is no tray",
    "Tray,Dose,Fresh g\n1,low,150\n2,low,155\n3,high,230\n4,high,228\nlow = 5 ml; high = 11 ml,,\n",
    "1 5 150 - good|2 5 155 - good|3 11 230 - good|4 11 228 - good",
  ],
];

test.each(typed)("%s", async (_, sheets, truth) => {
  const book = await bookOf(typeof sheets === "string" ? { "harvests/one.csv": sheets } : sheets);
  expect(misread(book, truth)).toEqual({ missing: [], left: [] });
  expect(book.account?.lost).toBe(0);
  expect(allFacts(await harvestOf(cleanedHarvestCsv(book)))).toEqual(allFacts(book));
});

import { expect, test } from "vitest";
import { cleanedHarvestCsv } from "../../src/cleaning/cleaned-harvest-csv.ts";
import { allFacts, bookOf, harvestOf } from "./book-of.ts";
import { misread, type Typed } from "./tray-lines.ts";

/** Weights with slips, of other units, with what they lay in; and arithmetic and remarks in cells. Common practice, no source. */
const typed: Typed[] = [
  [
    "results that are weights",
    "Week,Tray,Dose,Result\n6,1,5ml,205g\n6,2,10ml,231g\n6,3,5ml,bin\n",
    "1 5 205 - good|2 10 231 - good|3 5 - - lost",
  ],
  [
    "the same without a unit",
    "Tray,ml,Result\n1,5,205\n2,5,contam\n3,10,231\n4,10,228\n",
    "1 5 205 - good|2 5 - - lost|3 10 231 - good|4 10 228 - good",
  ],
  [
    "results that are none",
    "Tray,ml,Fresh g,Result\n1,5,205,good\n2,5,,contam\n3,10,231,good\n",
    "1 5 205 - good|2 5 - - lost|3 10 231 - good",
  ],
  [
    "numbered weights with their total",
    "tray,ml,1st wt,2nd wt,3rd wt,Total weight\n1,5,120,60,20,200\n2,5,130,50,,180\n3,10,150,60,30,240\n",
    "1 5 200 - good|2 5 180 - good|3 10 240 - good",
  ],
  [
    "numbered weights, the second dried by its size",
    "tray,ml,weight 1,weight 2\n1,5,205,20.4\n2,5,180,18.1\n3,10,240,24.1\n",
    "1 5 - - asked|2 5 - - asked|3 10 - - asked",
  ],
  [
    "a total beside a fresh weight is no count",
    "Tray,ml,Fresh g,Total weight\n1,5,205,250\n2,5,210,255\n3,10,230,270\n",
    "1 5 205 - good|2 5 210 - good|3 10 230 - good",
  ],
  [
    "a dose alone under treatment",
    "tray id,treatment,rep,fresh_weight_g\nT1,5 mL,1,205\nT2,5 mL,2,201\nT3,10 mL,1,233\n",
    "T1 5 205 - good|T2 5 201 - good|T3 10 233 - good",
  ],
  [
    "a formula's total of blank flushes",
    "Tray,LC ml,Flush 1 g,Flush 2 g,Total g\n1,5,145,60,205\n2,10,,,0\n3,10,0,,0\n4,10,180,55,235\n",
    "1 5 205 - good|2 10 - - growing|3 10 0 - failed|4 10 235 - good",
  ],
  [
    "weights put right in a column of their own",
    "Tray,LC ml,Fresh g,Fresh g (corrected)\n1,5,200,\n2,5,310,210\n3,10,230,\n",
    "1 5 - - asked|2 5 - - asked|3 10 - - asked",
  ],
  [
    "the same with its day",
    "Tray,LC ml,Fresh g,Fresh g corrected on 4 May\n1,5,200,\n2,5,310,210\n3,10,230,\n",
    "1 5 - - asked|2 5 - - asked|3 10 - - asked",
  ],
  [
    "another tray on the scale",
    "Tray,LC ml,Fresh g\n1,5,200\n2,5,420 (with 3)\n3,10,\n4,10,445 g incl. T5\n6,10,230 with care\n",
    "1 5 200 - good|2 5 - - asked|3 10 - - growing|4 10 - - asked|6 10 230/- - good/asked",
  ],
  [
    "dry weights that are estimates by their name",
    "Tray,LC ml,Fresh g,Est. dry g\n1,5,200,20\n2,10,230,23\n",
    "1 5 200 - good|2 10 230 - good",
  ],
  [
    "weighings by number, which are no days",
    "Tray,LC ml,Weigh 1,Weigh 2,Weigh 3\n1,5,200,202,201\n2,5,210,209,211\n3,10,230,231,229\n",
    "1 5 - - asked|2 5 - - asked|3 10 - - asked",
  ],
  [
    "one weight in two columns with letters: parts of it, or weighed twice",
    "Tray,LC ml,Fresh (g) a,Fresh (g) b\nA1,5,210,21\nA2,5,205,20\nA3,10,240,24\n",
    "A1 5 - - asked|A2 5 - - asked|A3 10 - - asked",
  ],
  [
    "the same, de",
    "Schale;LC ml;Frisch a (g);Frisch b (g)\n1;5;210;211\n2;5;205;204\n3;10;240;241\n",
    "1 5 - - asked|2 5 - - asked|3 10 - - asked",
  ],
  [
    "a letter behind the one weight there is",
    "Tray,LC ml,Fresh A\nA1,5,210\nA2,5,205\nA3,10,240\n",
    "A1 5 210 - good|A2 5 205 - good|A3 10 240 - good",
  ],
  [
    "dry weight of a sample",
    "Tray,LC ml,Fresh g,Dry g (100 g sample)\nA1,5,210,9.8\nA2,5,205,10.1\nA3,10,240,9.9\n",
    "A1 5 210 - good|A2 5 205 - good|A3 10 240 - good",
  ],
  [
    "the same, it",
    "Vaschetta;LC ml;Peso fresco g;Peso secco (su 100 g)\n1;5;210;9,8\n2;5;205;10,1\n3;10;240;9,9\n",
    "1 5 210 - good|2 5 205 - good|3 10 240 - good",
  ],
  [
    "kg among g",
    "Tray,ml,Fresh g,Dry g\n1,5,210,21\n2,5,0.205,20\n3,10,230,23\n4,10,0.24,24\n",
    "1 5 210 21 good|2 5 - - ?|3 10 230 23 good|4 10 - - ?",
  ],
  [
    "slip of ten down",
    "Tray,ml,Fresh g,Dry g\n1,5,210,21\n2,5,20.5,20\n3,10,230,23\n4,10,2400,24\n",
    "1 5 210 21 good|2 5 ? ? ?|3 10 230 23 good|4 10 ? ? ?",
  ],
  [
    "slip of ten, few trays no dry",
    "Tray,ml,Fresh g\n1,5,210\n2,5,205\n3,10,230\n4,10,2400\n5,10,238\n",
    "1 5 210 - good|2 5 205 - good|3 10 230 - good|4 10 ? ? ?|5 10 238 - good",
  ],
  [
    "fresh dry swapped",
    "Tray,ml,Fresh g,Dry g\n1,5,210,21\n2,5,20,205\n3,10,230,23\n4,10,240,24\n",
    "1 5 210 21 good|2 5 ? ? ?|3 10 230 23 good|4 10 240 24 good",
  ],
  [
    "all swapped headers",
    "Tray,ml,Dry g,Fresh g\n1,5,210,21\n2,5,205,20\n3,10,230,23\n4,10,240,24\n",
    "1 5 ? ? ?|2 5 ? ? ?|3 10 ? ? ?|4 10 ? ? ?",
  ],
  [
    "oz header, grams typed",
    "Tray,ml,Fresh oz,Dry oz\n1,5,210,21\n2,5,205,20\n3,10,230,23\n",
    "1 5 ? ? ?|2 5 ? ? ?|3 10 ? ? ?",
  ],
  [
    "lb header",
    "Tray,ml,Fresh lb\n1,5,0.46\n2,5,0.45\n3,10,0.51\n",
    "1 5 208.7 - good|2 5 204.1 - good|3 10 231.3 - good",
  ],
  [
    "tare included for some",
    "Tray,ml,Fresh g,Notes\n1,5,210,\n2,5,405,incl. tray\n3,10,230,\n4,10,430,with box (200)\n",
    "1 5 210 - good|2 5 ? ? ?|3 10 230 - good|4 10 ? ? ?",
  ],
  [
    "comma decimals in point file",
    'Tray,ml,Fresh g,Dry g\n1,5,210.5,21.2\n2,5,"205,5","20,4"\n3,10,230.1,23.0\n',
    "1 5 210.5 21.2 good|2 5 205.5 20.4 good|3 10 230.1 23 good",
  ],
  [
    "thousand comma",
    'Tray,ml,Fresh g\n1,5,"1,210"\n2,5,"1,105"\n3,10,"1,330"\n',
    "1 5 1210/1.2/- - good/asked|2 5 1105/- - good/asked|3 10 1330/- - good/asked",
  ],
  [
    "thousand point de",
    "Schale;ml;Frisch g\n1;5;1.210\n2;5;1.105\n3;10;980\n",
    "1 5 1210/- - good/asked|2 5 1105/- - good/asked|3 10 980 - good",
  ],
  [
    "comma kg",
    "Schale;ml;Frisch kg\n1;5;0,210\n2;5;0,205\n3;10;0,23\n",
    "1 5 210 - good|2 5 205 - good|3 10 230 - good",
  ],
  [
    "dates in 2031",
    "Tray,ml,Inoculated,Harvested,Fresh g\n1,5,2026-01-05,2026-02-15,210\n2,5,2026-01-05,2031-02-15,205\n3,10,2026-01-05,2026-02-16,230\n",
    "1 5 210 - good h2026-02-15|2 5 205 ? ?|3 10 230 - good",
  ],
  [
    "harvest before inoculation",
    "Tray,ml,Inoculated,Harvested,Fresh g\n1,5,2026-01-05,2026-02-15,210\n2,5,2026-01-05,2025-02-15,205\n3,10,2026-01-05,2026-02-16,230\n",
    "1 5 210 - good h2026-02-15|2 5 205 ? ?|3 10 230 - good",
  ],
  [
    "two digit years",
    "Tray,ml,Inoculated,Harvested,Fresh g\n1,5,05.01.26,15.02.26,210\n2,5,05.01.26,16.02.26,205\n3,10,12.01.26,21.02.26,230\n",
    "1 5 210 - good i2026-01-05 h2026-02-15|2 5 205 - good i2026-01-05 h2026-02-16|3 10 230 - good i2026-01-12 h2026-02-21",
  ],
  ["negative", "Tray,ml,Fresh g\n1,5,210\n2,5,-205\n3,10,230\n", "1 5 210 - good|2 5 - - asked|3 10 230 - good"],
  [
    "dry equals fresh",
    "Tray,ml,Fresh g,Dry g\n1,5,210,21\n2,5,205,205\n3,10,230,23\n",
    "1 5 210 21 good|2 5 ? ? ?|3 10 230 23 good",
  ],
  [
    "dry 0",
    "Tray,ml,Fresh g,Dry g\n1,5,210,21\n2,5,205,0\n3,10,230,23\n",
    "1 5 210 21 good|2 5 205 ? ?|3 10 230 23 good",
  ],
  [
    "units in cell mixed",
    "Tray,ml,Fresh\n1,5,210 g\n2,5,0.2 kg\n3,10,8 oz\n4,10,1/2 lb\n5,10,240gr\n",
    "1 5 210 - good|2 5 200 - good|3 10 226.8 - good|4 10 226.8 - good|5 10 240 - good",
  ],
  [
    "typed letter O",
    "Tray,ml,Fresh g,Dry g\n1,5,21O,21\n2,5,2l5,20\n3,10,230,23\n",
    "1 5 210/- 21 ?|2 5 215/- 20 ?|3 10 230 23 good",
  ],
  [
    "dose slip",
    "Tray,ml,Fresh g\n1,5,210\n2,5,205\n3,10,230\n4,100,236\n5,10,233\n",
    "1 5 210 - good|2 5 205 - good|3 10 230 - good|4 ? 236 ? ?|5 10 233 - good",
  ],
  [
    "dose litre",
    "Tray,LC (l),Fresh g\n1,0.005,210\n2,0.005,205\n3,0.01,230\n",
    "1 5 210 - good|2 5 205 - good|3 10 230 - good",
  ],
  [
    "dose in g header ml",
    "Tray,Dose ml,Fresh g\n1,5 g,210\n2,5 g,205\n3,10 g,230\n",
    "1 -/5 210 - ?|2 -/5 205 - ?|3 -/10 230 - ?",
  ],
  [
    "column of gross with separate tare const note",
    "Tray,ml,Weight with tray g,Tray weight g,Dry g\n1,5,250,40,21\n2,5,245,40,20\n3,10,272,41,23\n",
    "1 5 210/- 21 ?|2 5 205/- 20 ?|3 10 231/- 23 ?",
  ],
  [
    "a total beside flushes, one of them not weighed by itself",
    "Tray,ml,Flush 1 g,Flush 2 g,Total g\n1,5,150,50,200\n2,5,,50,200\n3,10,155,,215\n4,10,160,,160\n",
    "1 5 200 - good|2 5 200 - good|3 10 215 - good|4 10 160 - good",
  ],
  [
    "the same, a flush a row",
    "Tray,ml,Flush,Fresh g\n1,5,1,\n1,5,2,50\n1,5,,200\n2,10,1,155\n2,10,2,\n2,10,,215\n",
    "1 5 200 - good|2 10 215 - good",
  ],
  [
    "weight unit row",
    "Tray,LC,Fresh,Dry\n,ml,g,g\n1,5,210,21\n2,5,205,20\n3,10,230,23\n",
    "1 5 210 21 good|2 5 205 20 good|3 10 230 23 good",
  ],
  [
    "fresh in kg dry in g",
    "Tray,ml,Fresh kg,Dry g\n1,5,0.21,21\n2,5,0.205,20\n3,10,0.23,23\n",
    "1 5 210 21 good|2 5 205 20 good|3 10 230 23 good",
  ],
  [
    "fresh weight cell with lb oz",
    'Tray,ml,Fresh\n1,5,7 1/2 oz\n2,5,"0 lb 7 oz"\n3,10,8.25oz\n4,10,"½ lb"\n',
    "1 5 212.6 - good|2 5 198.4 - good|3 10 233.9 - good|4 10 226.8 - good",
  ],
  [
    "same weight copied",
    "Tray,ml,Fresh g,Dry g\n1,5,210,21\n2,5,210,21\n3,5,210,21\n4,10,210,21\n",
    "1 5 210 21 good|2 5 210 21 good|3 5 210 21 good|4 10 210 21 good",
  ],
  [
    "pct moisture dry",
    "Tray,ml,Fresh g,Dry %\n1,5,210,10\n2,5,205,10\n3,10,230,10.5\n",
    "1 5 210 -/21 good|2 5 205 -/20.5 good|3 10 230 -/24.1 good",
  ],
  [
    "dry lost tenth point",
    "Tray,ml,Fresh g,Dry g\n1,5,210,21.4\n2,5,205,208\n3,10,230,23.5\n4,10,235,239\n",
    "1 5 210 21.4 good|2 5 - - ?|3 10 230 23.5 good|4 10 - - ?",
  ],
  [
    "space thousands",
    "Tray;ml;Fresh g\n1;5;1 210\n2;5;1 105\n3;10;980\n",
    "1 5 1210 - good|2 5 1105 - good|3 10 980 - good",
  ],
  [
    "apostrophe thousands",
    "Schale;ml;Frisch g\n1;5;1'210\n2;5;1'105,5\n3;10;980\n",
    "1 5 1210 - good|2 5 1105.5 - good|3 10 980 - good",
  ],
  [
    "sums dose",
    "Tray,LC ml,Fresh g\n1,5+5,210\n2,5 + 5 ml,205\n3,2x5,230\n4,3*5,231\n5,20-5,232\n",
    "1 10 210 - good|2 10 205 - good|3 10 230 - good|4 15 231 - good|5 15/- 232 - ?",
  ],
  [
    "sums fresh",
    'Tray,ml,Fresh g\n1,5,150+60\n2,5,=150+55\n3,10,120+80+30\n4,10,"150 & 60"\n5,10,150/60\n6,10,150 then 60\n',
    "1 5 210 - good|2 5 205 - good|3 10 230 - good|4 10 210/- - ?|5 10 - - asked|6 10 210/- - ?",
  ],
  [
    "minus tare",
    "Tray,ml,Fresh g\n1,5,250-40\n2,5,245 - 40\n3,10,270-40=230\n4,10,231\n",
    "1 5 210/- - ?|2 5 205/- - ?|3 10 230/- - ?|4 10 231 - good",
  ],
  [
    "towel",
    "Tray,ml,Fresh g\n1,5,210g (with towel)\n2,5,310 with towel\n3,10,230 (w/ bag)\n4,10,231 net\n5,10,233 w/o bag\n",
    "1 5 - - asked|2 5 - - asked|3 10 - - asked|4 10 231 - good|5 10 233 - good",
  ],
  [
    "per tray",
    "Tray,LC,Fresh g\n1,10 mL/tray,210\n2,10ml per tray,205\n3,5 ml each,230\n",
    "1 10 210 - good|2 10 205 - good|3 5 230 - good",
  ],
  [
    "fractions",
    "Tray,LC ml,Fresh oz\n1,5,7-1/2\n2,5,7 1/4\n3,10,8½\n4,10,8 3/8\n",
    "1 5 212.6 - good|2 5 205.5 - good|3 10 241 - good|4 10 237.4 - good",
  ],
  [
    "approximations",
    "Tray,LC ml,Fresh g,Dry g\n1,5,~210,21\n2,5,about 205,20\n3,10,230ish,23\n4,10,c. 231,23\n5,10,ca 235,23.5\n6,10,230±2,23\n",
    "1 5 210 21 good|2 5 205 20 good|3 10 230 23 good|4 10 231 23 good|5 10 235 23.5 good|6 10 230/- 23 ?",
  ],
  [
    "notes in weight",
    'Tray,LC ml,Fresh g\n1,5,210 (2 clusters)\n2,5,205 - nice\n3,10,230 small caps\n4,10,231*\n5,10,"233, dense"\n',
    "1 5 - - asked|2 5 205 - good|3 10 - - asked|4 10 231 - good|5 10 233 - good",
  ],
  [
    "dose fractions of syringe + bigger",
    'Tray,LC ml,Fresh g\n1,"5 (1/2 syringe)",210\n2,"10 (full)",205\n3,5,230\n',
    "1 5/- 210 - good|2 10/- 205 - good|3 5 230 - good",
  ],
  [
    "flushes in a cell",
    'Tray,LC ml,Fresh g\n1,5,"150 (1st), 60 (2nd)"\n2,5,F1 150 F2 55\n3,10,230\n',
    "1 5 210/- - ?|2 5 205/- - ?|3 10 230 - good",
  ],
  [
    "equals result",
    "Tray,LC ml,Fresh g\n1,5,150+60=210\n2,5,150 + 55 = 250\n3,10,230\n",
    "1 5 210 - good|2 5 - - asked|3 10 230 - good",
  ],
  [
    "formula left as text",
    'Tray,LC ml,Fresh g\n1,5,"=C3-40"\n2,5,"=SUM(C1:C2)"\n3,10,230\n',
    "1 5 - - asked|2 5 - - asked|3 10 230 - good",
  ],
  [
    "percent dose",
    "Tray,Spawn %,Fresh g\n1,5%,210\n2,5,205\n3,10 %,230\n",
    "1 - 210 - good|2 - 205 - good|3 - 230 - good",
  ],
  [
    "kg with comma sum",
    "Schale;ml;Frisch kg\n1;5;0,15+0,06\n2;5;0,2 + 0,005\n3;10;0,230\n",
    "1 5 210 - good|2 5 205 - good|3 10 230 - good",
  ],
  [
    "sum in two units",
    "Tray,ml,Fresh\n1,5,150 g + 60 g\n2,5,5 oz + 2 oz\n3,10,0.2 kg + 30 g\n",
    "1 5 210 - good|2 5 198.4 - good|3 10 230 - good",
  ],
  [
    "unit glued and wrong",
    "Tray,ml,Fresh g,Dry g\n1,5,210g,21g\n2,5,205gms,20gm\n3,10,230 grams,23 gr.\n4,10,231Gr,23.5 grammes\n5,10,240 mg,24\n",
    "1 5 210 21 good|2 5 205 20 good|3 10 230 23 good|4 10 231 23.5 good|5 10 - - ?",
  ],
  [
    "two weights slash",
    "Tray,ml,Fresh/Dry g\n1,5,210/21\n2,5,205/20\n3,10,230/23\n",
    "1 5 210/- 21/- ?|2 5 205/- 20/- ?|3 10 230/- 23/- ?",
  ],
  [
    "censored",
    "Tray,ml,Fresh g\n1,5,>200\n2,5,<250\n3,10,230\n4,10,200-250\n5,10,200+\n",
    "1 5 - - ?|2 5 - - ?|3 10 230 - good|4 10 - - ?|5 10 - - ?",
  ],
  [
    "a second weight by its number may be more of the first, or the same again",
    "Bolsa;CL (ml);Primera cosecha;Peso (g);Segunda cosecha;Peso 2 (g)\n1;5;28 mar 2026;150;12 abr 2026;60\n2;8;28 mar 2026;170;14 abr 2026;70\n",
    "1 5 - - asked/good|2 8 - - asked/good",
  ],
  [
    "weights that may be more of the first",
    "Tray,LC ml,Fresh g,Extra g,Dry g\n1,5,150,60,21\n2,8,170,70,24\n",
    "1 5 - 21 good|2 8 - 24 good",
  ],
  ["an ordinal beside a weight", "Tray,LC ml,Fresh g,2nd\n1,5,150,60\n2,8,170,70\n", "1 5 - - asked|2 8 - - asked"],
  [
    "notes of what was not weighed",
    "Tray,LC ml,Fresh g,Notes\n1,5,205,\n2,5,,forgot to weigh but about the same as 1\n3,8,230,\n4,8,,gave to a neighbour\n5,8,,not weighed yet\n",
    "1 5 205 - good|2 5 - - asked|3 8 230 - good|4 8 - - asked|5 8 - - growing/good/asked",
  ],
  [
    "weights with their days in brackets",
    "Tray,LC (ml),Flush 1,Flush 2\n1,5,150g (14 Apr),60g (28 Apr)\n2,10,170g (14 Apr),70g (29 Apr)\n",
    "1 5 210 - good|2 10 240 - good",
  ],
  [
    "bags of a weight each",
    "Tray,LC ml,Fresh g\n1,5,3 bags 80 each\n2,5,2 bags 80 g each\n3,10,3 bags at 85g\n",
    "1 5 240 - good|2 5 160 - good|3 10 255 - good",
  ],
];

test.each(typed)("%s", async (_, sheets, truth) => {
  const book = await bookOf(typeof sheets === "string" ? { "harvests/one.csv": sheets } : sheets);
  expect(misread(book, truth)).toEqual({ missing: [], left: [] });
  expect(book.account?.lost).toBe(0);
  expect(allFacts(await harvestOf(cleanedHarvestCsv(book)))).toEqual(allFacts(book));
});

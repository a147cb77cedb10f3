import { describe, expect, test } from "vitest";
import { bookOf, rulesOf } from "./book-of.ts";
import { misread, type Typed } from "./tray-lines.ts";

/** Sheets that lie in ways of their own: logs of forms, days over columns, two weights a cell, a card for each tray. */
const typed: Typed[] = [
  [
    "a form's log with a correction",
    "Timestamp,Tray,What happened,mL / g,Comment\n2/3/2026 18:02:11,A1,Inoculated,10,\n2/3/2026 18:05:40,A2,Inoculated,10,\n2/3/2026 18:07:02,A3,Inoculated,15,\n2/3/2026 18:09:13,A4,Inoculated,15,\n2/24/2026 8:01:00,A1,Fully colonised,,\n2/25/2026 8:02:00,A3,Fully colonised,,\n3/3/2026 7:55:12,A4,Binned,,green mould in the corner\n4/2/2026 19:30:00,A1,Harvest,205,\n4/2/2026 19:31:00,A2,Harvest,198,\n4/2/2026 19:34:00,A3,Harvest,201,\n4/2/2026 19:39:00,A3,Correction,210,\n",
    "A1 10 205 - good i2026-02-03 h2026-04-02|A2 10 198 - good|A3 15 201 - asked|A4 15 - - contaminated",
  ],
  [
    "days over the columns",
    "Tray,LC ml,12 Mar 2026,26 Mar 2026,9 Apr 2026\nE1,5,150,65,30\nE2,5,160,80,\nE3,10,190,100,\nE4,10,200,60,40\n",
    "E1 5 245 - good h2026-03-12|E2 5 240 - good|E3 10 290 - good|E4 10 300 - good",
  ],
  [
    "days over the columns, under a title that says dry",
    "Dry weight (g),,,\nTray,LC ml,12/03/26,26/03/26\nE1,5,15,6\nE2,5,16,8\nE3,10,19,9\n",
    "E1 5 - 21 good|E2 5 - 24 good|E3 10 - 28 good",
  ],
  [
    "weights that fall from day to day as they dry are no pickings",
    "Weight g while drying,,,\nTray,LC ml,12 Mar,13 Mar,15 Mar\nA1,5,200,90,20\nA2,5,210,95,21\nA3,10,240,100,24\n",
    "A1 5 - - asked|A2 5 - - asked|A3 10 - - asked",
  ],
  [
    "days of one month over the columns",
    "Tray,LC ml,12 Mar,26 Mar\nE1,5,150,65\nE2,5,160,80\nE3,10,190,100\n",
    "E1 5 215 - good|E2 5 240 - good|E3 10 290 - good",
  ],
  [
    "ordinals with a unit",
    "Tray,LC ml,1st g,2nd g\nA1,5,200,60\nA2,5,190,\nA3,10,240,20\n",
    "A1 5 260 - good|A2 5 190 - good|A3 10 260 - good",
  ],
  [
    "trays picked, by their names",
    "Trays picked,LC ml,Fresh g\nA1,5,200\nA2,5,205\nA3,10,240\n",
    "A1 5 200 - good|A2 5 205 - good|A3 10 240 - good",
  ],
  [
    "prose between the trays of two columns",
    "LC 5 ml each,\nTray,Fresh g\nA1,200\nA2,205\nnow 50 ml water a day,\nA3,240\n",
    "A1 5 200 - good|A2 5 205 - good|A3 5 240 - good",
  ],
  [
    "days of the run over the columns, and their total",
    "Tray,LC ml,Day 44 g,Day 45 g,Day 46 g,Total\nA1,5,100,60,40,200\nA2,5,105,60,40,205\nA3,10,140,60,40,240\n",
    "A1 5 200 - good|A2 5 205 - good|A3 10 240 - good",
  ],
  [
    "shares and sums that grow from day to day are no pickings",
    "Tray,LC ml,12 Mar 2026,19 Mar 2026,26 Mar 2026,Fresh g\nE1,5,40,80,100,200\nE2,5,50,90,100,210\nE3,10,60,100,100,240\n",
    "E1 5 200 - good|E2 5 210 - good|E3 10 240 - good",
  ],
  [
    "the day of each flush beside its weight",
    "Tray,ml,1st flush,g,2nd flush,g\nG1,5,12/03/2026,150,26/03/2026,60\nG2,5,12/03/2026,150,27/03/2026,70\nG3,10,11/03/2026,190,25/03/2026,100\n",
    "G1 5 210 - good h2026-03-12|G2 5 220 - good|G3 10 290 - good",
  ],
  [
    "fresh and dry in a cell, by its header",
    "Tray,LC ml,Fresh/dry g\nF1,5,205/21\nF2,5,198/20\nF3,10,240/25\nF4,10,lost\n",
    "F1 5 205 21 good|F2 5 198 20 good|F3 10 240 25 good|F4 10 - - discarded",
  ],
  [
    "fresh and dry in a cell, by its header of two words",
    "Tray,LC ml,Fresh Dry\nF1,5,205/21\nF2,5,198/20\nF3,10,240/25\n",
    "F1 5 205 21 good|F2 5 198 20 good|F3 10 240 25 good",
  ],
  [
    "two weights in a cell too near each other to be of fresh and dry",
    "Tray,LC ml,Fresh/dry g\nF1,5,205/198\nF2,5,198/190\nF3,10,240/235\n",
    "F1 5 - - asked|F2 5 - - asked|F3 10 - - asked",
  ],
  [
    "fresh and dry in a cell, by its words",
    "Kiste;LC ml;Ernte g\nF1;5;205 (21 trocken)\nF2;5;198 (20 trocken)\nF3;10;240 (25 trocken)\n",
    "F1 5 205 21 good|F2 5 198 20 good|F3 10 240 25 good",
  ],
  [
    "fresh and dry in a cell of results",
    "Tray,LC ml,Result\nF1,5,205 g wet / 21 g dry\nF2,5,198 g wet / 20 g dry\nF3,10,contaminated\n",
    "F1 5 205 21 good|F2 5 198 20 good|F3 10 - - contaminated",
  ],
  [
    "a weight to be taken off another is no dry weight",
    "Tray,ml,Fresh g\nW1,5,312-45\nW2,5,300-45\nW3,10,240\n",
    "W1 5 - - asked|W2 5 - - asked|W3 10 240 - good",
  ],
  [
    "a card for each tray",
    "Tray,A1\nLC,5 ml\nInoculated,4 Jan 2026\nFresh,200 g\nDry,20 g\n\nTray,A2\nLC,5 ml\nInoculated,4 Jan 2026\nContaminated,yes (trich)\n\nTray,A3\nLC,10 ml\nInoculated,4 Jan 2026\nFresh,240 g\nDry,24 g\n",
    "A1 5 200 20 good|A2 5 - - contaminated|A3 10 240 24 good",
  ],
  [
    "harvested and contaminated as boxes to tick",
    "Tray,ml,contam,picked,Fresh g\nA1,5,☐,☑,200\nA2,5,☑,☐,\nA3,10,☐,☑,240\nA4,10,☐,☐,\n",
    "A1 5 200 - good|A2 5 - - contaminated|A3 10 240 - good|A4 10 - - growing",
  ],
  [
    "harvested, yes or no, beside the day of it",
    "Tray,ml,Harvested,Harvest date,Fresh g\nA1,5,TRUE,2026-03-01,200\nA2,5,FALSE,,\nA3,10,TRUE,2026-03-02,240\n",
    "A1 5 200 - good h2026-03-01|A2 5 - - growing|A3 10 240 - good h2026-03-02",
  ],
  [
    "a dose in two shots",
    "Tray,1st shot ml,2nd shot ml,Fresh g\nR1,5,,200\nR2,5,5,\nR3,10,,240\nR4,5,5,180\n",
    "R1 5 200 - good|R2 10 - - growing|R3 10 240 - good|R4 10 180 - good",
  ],
  [
    "planned and given",
    "Tray,LC planned,LC given,Fresh g\nO1,5 ml,5 ml,200\nO2,5 ml,6 ml,205\nO3,15 ml,12 ml,240\n",
    "O1 5 200 - good|O2 6 205 - good|O3 12 240 - good",
  ],
  [
    "a dose beside the syringe it came from",
    "Tray,LC ml,Syringe,Fresh g\nA1,5,S1,200\nA2,5,S1,205\nA3,10,S2,240\n",
    "A1 5 200 - good|A2 5 205 - good|A3 10 240 - good",
  ],
  [
    "last year's rows under a line that says so",
    "Tray,LC ml,Fresh g,Notes\nJ1,5,200,\nJ2,10,240,\nOLD - ignore below,,,\nK1,5,150,2024\nK2,10,155,\n",
    "J1 5 200 - good|J2 10 240 - good|K1 5 150 - asked|K2 10 155 - asked",
  ],
  [
    "trays picked, of those there were",
    "Cook,LC ml,Trays picked,Fresh g\nA,10,5 of 6,1010\nB,15,6 of 6,1400\n",
    "? 10 1010 - good x5|? 10 - - discarded x1|? 15 1400 - good x6",
  ],
  [
    "a loss noted of one of several",
    "Trays,LC ml each,Total fresh g,Notes\nA1-A6,10,1010,A6 green - thrown out\nB1-B6,15,1400,\n",
    "A1-A6 10 1010 - asked x6|B1-B6 15 1400 - good x6",
  ],
  [
    "a dose for each shot is no dose of a tray",
    "Tray,Shots,ml per shot,Strain,Fresh g\nA1,2,5,Blue,200\nA2,4,5,Blue,205\nA3,4,5,Grey,240\n",
    "A1 - 200 - good|A2 - 205 - good|A3 - 240 - good",
  ],
  [
    "cards under titles that name their trays",
    "TRAY A1,\nLC,5 ml\nFresh,200 g\n,\nTRAY A2,\nLC,10 ml\nFresh,240 g\n,\nTRAY A3,\nLC,10 ml\nFate,green mould\n",
    "A1 5 200 - good|A2 10 240 - good|A3 10 - - contaminated",
  ],
  [
    "a count of boxes, and how many of them went mouldy",
    "Ansatz;Kisten;davon verschimmelt;LC ml je Kiste;Frisch gesamt g\nA;6;1;10;1010\nB;6;0;15;1400\n",
    "? 10 1010 - good x5|? 10 - - contaminated x1|? 15 1400 - good x6",
  ],
  [
    "names nobody is sure of, that bear each other out, beside a count of rows",
    "#,Bag,cc,Net wt (g)\n1,B7,5,205\n2,B8,5,198\n3,B9,10,240\n",
    "B7 5 205 - good|B8 5 198 - good|B9 10 240 - good",
  ],
  [
    "a question whose no is a loss, and is no day",
    "Tray,LC ml,Made it?,Fresh g\nA1,5,Y,205\nA2,5,N,\nA3,10,Y,240\n",
    "A1 5 205 - good|A2 5 - - failed|A3 10 240 - good",
  ],
  [
    "boxes to tick in Italian",
    "Vaschetta;Coltura ml;Contaminata?;Raccolta?;Fresco g\nV1;5;no;sì;200\nV2;5;sì;no;\nV3;10;no;sì;240\nV4;10;no;no;\n",
    "V1 5 200 - good|V2 5 - - contaminated|V3 10 240 - good|V4 10 - - growing",
  ],
  [
    "doses of each tray, in other languages",
    "Bac;Dose par bac (ml);Poids frais g\nB1;5;205\nB2;10;240\n",
    "B1 5 205 - good|B2 10 240 - good",
  ],
  [
    "two shots by number, and amounts over columns that are no shots",
    "Kiste;1. Spritze ml;2. Spritze ml;Frisch g\nK1;5;;200\nK2;5;5;205\nK3;10;;240\n",
    "K1 5 200 - good|K2 10 205 - good|K3 10 240 - good",
  ],
  [
    "titles that tell cook, day and dose",
    'Tray,Fresh g,Dry g\n"Cook 4, 5 ml, 3 Feb",,\n1,205,20\n2,211,21\nCook 5 - 10 Feb 2026 - 8 ml each,,\n1,235,23\n2,241,24\n',
    "1 (4) 5 205 20 good b4|2 (4) 5 211 21 good|1 (5) 8 235 23 good b5|2 (5) 8 241 24 good",
  ],
  [
    "titles whose commas parted them",
    "Tray,Fresh g,Dry g\nCook 4, 5 ml, 3 Feb\n1,205,20\n2,211,21\nCook 5, 8 ml, 10 Feb\n3,235,23\n4,241,24\n",
    "1 5 205 20 good b4|2 5 211 21 good|3 8 235 23 good b5|4 8 241 24 good",
  ],
  [
    "titles in German, with the day of the cook",
    "Charge 2 vom 3.2.2026 - je 5 ml;;\nSchale;Frisch g;Trocken g\n1;205;20\n2;211;21\nCharge 3 vom 10.2.2026 - je 8 ml;;\n1;235;23\n2;241;24\n",
    "1 (2) 5 205 20 good b2|2 (2) 5 211 21 good|1 (3) 8 235 23 good b3|2 (3) 8 241 24 good",
  ],
  [
    "a title that tells cook, day of inoculation and dose",
    "Batch 3 (inoculated 3 Feb 2026; 5 ml LC),,\nTray,Fresh g,Dry g\n1,205,20\n2,211,21\n",
    "1 5 205 20 good i2026-02-03 b3|2 5 211 21 good i2026-02-03",
  ],
  [
    "a dose among the words of the treatment",
    "Tray,Treatment,Fresh g\n1,Blue 5ml,205\n2,8 ml blue,231\n3,Red (5 ml),190\n4,Red - 8ml,221\n",
    "1 5 205 - good|2 8 231 - good|3 5 190 - good|4 8 221 - good",
  ],
  [
    "a dose in the name of the tray, and a jar's size in it",
    "Tray,Fresh g\n5ml-1,205\n5ml-2,210\n8ml-1,230\n8ml-2,\n",
    "5ml-1 5 205 - good|5ml-2 5 210 - good|8ml-1 8 230 - good|8ml-2 8 - - growing/asked",
  ],
  [
    "the size of a jar is no dose",
    "Tray,Fresh g\n250ml-1,205\n500ml-1,231\n",
    "250ml-1 - 205 - good|500ml-1 - 231 - good",
  ],
  [
    "doses over the trays of a turned sheet, under no name",
    ",3 mL,3 mL,6 mL,6 mL\nTray,1,2,3,4\nFresh g,205,231,190,\nOutcome,good,good,good,lost\n",
    "1 3 205 - good|2 3 231 - good|3 6 190 - good|4 6 - - discarded",
  ],
  [
    "culture named beside each dose of a treatment",
    "Tray,Treatment,Fresh g\n1,LC 5 ml,205\n2,LC 8 ml,231\n3,-,199\n",
    "1 5 205 - good|2 8 231 - good|3 - 199 - good",
  ],
  [
    "a weight of all pickings",
    "Tray,LC,1st pick,2nd pick,Dried all\n1,3ml,150g,60g,21g\n2,6ml,180g,-,18g\n",
    "1 3 210 21 good|2 6 180 18 good",
  ],
  [
    "a weight of all pickings, with more words",
    'Tray,LC ml,Flush 1 g,"Dry weight, all flushes"\n1,3,210,21\n2,6,240,24\n',
    "1 3 210 21 good|2 6 240 24 good",
  ],
  [
    "a unit alone over the only weights",
    "tray,ml,g\n1,2,188\n2,4,214\n3,6,contaminated\n",
    "1 2 188 - good|2 4 214 - good|3 6 - - contaminated",
  ],
  [
    "a unit alone beside a weight is none",
    "Tray,LC ml,Supplement,g,Fresh g\n1,5,bran,20,205\n2,5,bran,40,225\n",
    "1 5 205 - good|2 5 225 - good",
  ],
  [
    "another liquid than culture is no dose",
    "Tray,Treatment,Fresh g\n1,water 5 ml,205\n2,water 10 ml,231\n",
    "1 - 205 - good|2 - 231 - good",
  ],
  [
    "weeks over the columns, and their total",
    "Tray,LC ml,Wk 7,Wk 8,Wk 9,Total\n1,5,120,60,25,205\n2,5,130,60,,190\n3,8,140,70,20,230\n4,8,,,,\n",
    "1 5 205 - good|2 5 190 - good|3 8 230 - good|4 8 - - growing/asked",
  ],
  [
    "weeks over the columns, in German, under a title that says dry",
    "Trockengewicht (g);;;\nSchale;FK ml;KW 13;KW 15\n1;5;15;6\n2;8;18;7\n",
    "1 5 - 21 good|2 8 - 25 good",
  ],
  [
    "means of the trays of each cook",
    "Cook,LC per tray,Trays picked,Avg fresh (g)\n1,5 ml,5,210\n2,8 ml,6,240\n",
    "? 5 1050 - good x5|? 8 1440 - good x6",
  ],
  [
    "a mean beside no count may be of anything",
    "Tray,LC ml,Avg fresh (g),Dry g\n1,5,105,20\n2,8,120,24\n",
    "1 5 - 20 good|2 8 - 24 good",
  ],
  [
    "how far each tray has come, in answers",
    "Tray,LC ml,Inoculated,Colonised?,Fruiting?,Picked?,Fresh g\n1,5,2026-02-01,yes,yes,yes,205\n2,5,2026-02-01,yes,yes,no,\n3,8,2026-02-01,no - green,no,no,\n4,8,2026-02-01,yes,yes,yes,230\n",
    "1 5 205 - good|2 5 - - growing|3 8 - - contaminated|4 8 230 - good",
  ],
  [
    "trays over the columns, no name over the names of facts, in German",
    ";Schale 1;Schale 2;Schale 3\nImpfmenge;5 ml;5 ml;8 ml\nBeimpft;3.2.26;3.2.26;3.2.26\nGeerntet;28.3.26;29.3.26;\nFrisch;212 g;198 g;\nBemerkung;;;Trichoderma\n",
    "Schale 1 5 212 - good i2026-02-03 h2026-03-28|Schale 2 5 198 - good|Schale 3 8 - - contaminated",
  ],
  [
    "a day and its weights that come again to the right",
    "Tray,LC ml,Date,Fresh,Dry,Date,Fresh,Dry\n1,5,28 Mar 2026,150,15,12 Apr 2026,60,6\n2,8,28 Mar 2026,170,17,,,\n3,8,30 Mar 2026,180,18,14 Apr 2026,70,7\n",
    "1 5 210 21 good h2026-03-28|2 8 170 17 good h2026-03-28|3 8 250 25 good h2026-03-30",
  ],
  [
    "the same beside the day of inoculation, the unit before the state",
    "Tray,LC ml,Inoculated,Picked,g fresh,Picked,g fresh,Notes\n1,5,2026-02-03,2026-03-28,150,2026-04-12,60,\n2,8,2026-02-03,2026-03-28,170,2026-04-12,70,nice\n",
    "1 5 210 - good i2026-02-03 h2026-03-28|2 8 240 - good",
  ],
  [
    "weights that come again without a day may be the same again",
    "Tray,LC ml,Fresh,Dry,Fresh,Dry\n1,5,150,15,151,15\n2,8,170,17,171,17\n",
    "1 5 - - asked|2 8 - - asked",
  ],
  [
    "what happened on which day, with columns for what was measured",
    "Tray,Event,Date,LC ml,Fresh g\nT1,inoculated,2026-03-02,5,\nT1,harvested,2026-04-14,,210\nT2,inoculated,2026-03-02,5,\nT2,harvested,2026-04-15,,205\nT3,inoculated,2026-03-02,10,\nT3,harvested,2026-04-14,,250\nT4,inoculated,2026-03-02,10,\nT4,contaminated,2026-03-15,,\n",
    "T1 5 210 - good i2026-03-02 h2026-04-14|T2 5 205 - good i2026-03-02 h2026-04-15|T3 10 250 - good i2026-03-02 h2026-04-14|T4 10 - - contaminated i2026-03-02",
  ],
  [
    "the same, by day, with flushes",
    "Date,Tray,Event,LC ml,Fresh g,Dry g,Notes\n2026-03-02,T1,started,5,,,\n2026-03-02,T2,started,5,,,\n2026-03-02,T3,started,10,,,\n2026-03-02,T4,started,10,,,\n2026-03-15,T4,tossed,,,,green\n2026-04-14,T1,picked,,210,21,\n2026-04-14,T3,picked,,250,25,big ones\n2026-04-15,T2,picked,,205,20,\n2026-04-28,T1,picked,,60,6,\n",
    "T1 5 270 27 good i2026-03-02 h2026-04-14|T2 5 205 20 good i2026-03-02 h2026-04-15|T3 10 250 25 good i2026-03-02 h2026-04-14|T4 10 - - lost i2026-03-02",
  ],
  [
    "the same, German",
    "Schale;Ereignis;Datum;LC ml;Frisch g\nT1;geimpft;02.03.2026;5;\nT1;geerntet;14.04.2026;;210\nT2;geimpft;02.03.2026;5;\nT2;geerntet;15.04.2026;;205\nT3;geimpft;02.03.2026;10;\nT3;geerntet;14.04.2026;;250\nT4;geimpft;02.03.2026;10;\nT4;kontaminiert;15.03.2026;;\n",
    "T1 5 210 - good i2026-03-02 h2026-04-14|T2 5 205 - good i2026-03-02 h2026-04-15|T3 10 250 - good i2026-03-02 h2026-04-14|T4 10 - - contaminated i2026-03-02",
  ],
  [
    "the same, as a form",
    "Timestamp,What are you recording?,Tray,LC ml,Fresh g\n2026-03-02,Inoculation,T1,5,\n2026-03-02,Inoculation,T2,5,\n2026-03-02,Inoculation,T3,10,\n2026-04-14,Harvest,T1,,210\n2026-04-15,Harvest,T2,,205\n",
    "T1 5 210 - good i2026-03-02 h2026-04-14|T2 5 205 - good i2026-03-02 h2026-04-15|T3 10 - - growing i2026-03-02",
  ],
  [
    "a status in one row a tray is no event",
    "Tray,Status,Date,LC ml,Fresh g\nT1,harvested,2026-04-14,5,210\nT2,harvested,2026-04-15,5,205\nT3,harvested,2026-04-14,10,250\nT4,contaminated,2026-03-15,10,\nT5,colonised,2026-03-15,10,\n",
    "T1 5 210 - good|T2 5 205 - good|T3 10 250 - good|T4 10 - - contaminated|T5 10 - - growing",
  ],
  [
    "marks of treatments explained above, with none of them",
    "A: 5 ml LC\nB: 10 ml LC\nC: no LC\nTray,Treatment,Fresh g\n1,A,210\n2,B,240\n3,C,150\n",
    "1 5 210 - good|2 10 240 - good|3 0 150 - good",
  ],
  [
    "marks of treatments explained below, with words",
    "Tray,Treatment,Fresh g\n1,A,210\n2,B,240\n3,C,250\nA = 5 ml LC,,\nB = 10 ml LC,,\nC = 15 ml LC,,\n",
    "1 5 210 - good|2 10 240 - good|3 15 250 - good",
  ],
  [
    "marks of treatments of two things",
    'Tray,Treatment,Fresh g\n1,A,210\n2,B,240\n3,C,250\n"A = 5 ml, no bran",,\n"B = 10 ml, no bran",,\n"C = 10 ml, 20 g bran",,\n',
    "1 - 210 - good|2 - 240 - good|3 - 250 - good",
  ],
  [
    "trays by their names and their unit",
    "Cook,LC ml,Tray 1 (g),Tray 2 (g)\nA,5,210,205\nB,10,240,235\n",
    "? 5 210 - good|? 5 205 - good|? 10 240 - good|? 10 235 - good",
  ],
  [
    "a strain and a dose in one cell, by their names",
    "Tray,Strain/dose,Fresh g\n1,Blue / 5 ml,210\n2,Blue / 10 ml,240\n",
    "1 5 210 - good|2 10 240 - good",
  ],
];

describe("sheets that lie in ways of their own", () => {
  test.each(typed)("%s", async (_, text, truth) => {
    expect(misread(await bookOf({ "harvests/one.csv": text as string }), truth)).toEqual({ missing: [], left: [] });
  });

  test("grams among the words of a supplement are its amount", async () => {
    const typed =
      "Tray,LC ml,Supplement,Fresh g\n1,5,none,205\n2,5,20 g bran,225\n3,5,40g bran,238\n4,5,Bran 40 g,241\n";
    const book = await bookOf({ "one.csv": typed });
    expect(book.trays.map(({ supplement, supplementGrams }) => `${supplement} ${supplementGrams}`)).toEqual([
      ...["undefined 0", "bran 20", "bran 40", "bran 40"],
    ]);
    const apart = await bookOf({ "one.csv": typed, "settings.csv": "key,value\njoined_cells,ignore\n" });
    expect(apart.trays.map(({ supplement }) => supplement)).toContain("20 g bran");
  });

  test("a cross in a column of pickings that holds nothing else is asked about", async () => {
    const book = await bookOf({
      "one.csv": "Tray,LC,Wk1,Wk2,Wk3\n1,5 ml,,,120\n2,10 ml,,140,80\n3,5 ml,,,110\n4,10 ml,X,,\n",
    });
    expect(book.trays.map(({ outcome }) => outcome)).toEqual(["good", "good", "good", "asked"]);
  });

  test("a column called treatment is something varied, whatever its words", async () => {
    const book = await bookOf({
      "one.csv": "Tray,Treatment,Fresh g\n1,control,150\n2,control,155\n3,5 ml,205\n4,8 ml,230\n",
    });
    expect(rulesOf(book)).not.toContain("no-varied-column");
    expect(book.trays.map(({ factors }) => factors.Treatment)).toEqual(["control", "control", "5 ml", "8 ml"]);
  });

  test("a list of one weak name is an error, and no empty book", async () => {
    const book = await bookOf({ "harvests/one.csv": "No.,cc\n1,205\n2,198\n" });
    expect(book.issues.some(({ severity }) => severity === "error")).toBe(true);
  });

  test("rows above their names are an error, and no empty sheet", async () => {
    const book = await bookOf({ "harvests/one.csv": "H1,5,200,20\nH2,5,205,21\nH3,10,240,24\nTray,ml,Wet g,Dry g\n" });
    expect(rulesOf(book)).toContain("rows-above-names");
    expect(rulesOf(book)).not.toContain("header-only");
  });
});

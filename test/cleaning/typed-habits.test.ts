import { describe, expect, test } from "vitest";
import { cleanBook } from "../../src/cleaning/clean-book.ts";
import { cleanedHarvestCsv } from "../../src/cleaning/cleaned-harvest-csv.ts";
import { bookOf, sheet } from "./book-of.ts";
import { misread, type Typed } from "./tray-lines.ts";

/** Habits of growers in eight countries, each with what a careful person reads. Common practice, no source. */
const read: Typed[] = [
  [
    "a column for each week's look",
    "Tray,LC mL,Wk 1,Wk 2,Wk 3,Wk 4,Fresh g\n1,4,ok,ok,ok,harvested,210\n2,4,ok,ok,green,,\n3,8,ok,ok,ok,harvested,240\n4,8,ok,contam,tossed,,\n5,8,ok,ok,,,\n",
    "1 4 210 - good|2 4 - - contaminated|3 8 240 - good|4 8 - - contaminated|5 8 - - growing",
  ],
  [
    "the same, German",
    "Schale;Impfmenge ml;Woche 1;Woche 2;Woche 3;Frisch g\n1;4;ok;ok;geerntet;210\n2;4;ok;grün;;\n3;8;ok;ok;geerntet;240\n",
    "1 4 210 - good|2 4 - - contaminated|3 8 240 - good",
  ],
  [
    "a loss that a later look takes back",
    "Tray,LC mL,Check 1,Check 2,Fresh g\n1,4,ok,ok,210\n2,4,green,ok,\n3,8,ok,ok,240\n",
    "1 4 210 - good|2 4 - - asked|3 8 240 - good",
  ],
  [
    "weights or shares of each week are no looks",
    "Tray,LC mL,Wk 1,Wk 2,Outcome,Fresh g\nT1,4,20%,60%,good,210\nT2,4,20%,50%,good,205\nT3,8,40%,80%,contam,\n",
    "T1 4 210 - good|T2 4 205 - good|T3 8 - - contaminated",
  ],
  [
    "days named after what was weighed",
    "Btch,Tray,LC ml,Start date,Fresh date,Fresh g,Dry date,Dry g\nA,1,4,2026-03-01,2026-04-12,210,2026-04-14,21\nA,2,8,2026-03-01,2026-04-13,240,2026-04-15,24\n",
    "1 4 210 21 good i2026-03-01 h2026-04-12 bA|2 8 240 24 good i2026-03-01 h2026-04-13 bA",
  ],
  [
    "before and after drying",
    "Tray,LC ml,Before drying,After drying\n1,4,210,21\n2,8,240,24\n",
    "1 4 210 21 good|2 8 240 24 good",
  ],
  [
    "Impfung in mL, German",
    "Schale;Impfung ml;durchwachsen nach (Tage);Ernte nach (Tage);Frisch g\n1;4;14;45;210\n2;8;12;41;240\n",
    "1 4 210 - good|2 8 240 - good",
  ],
  [
    "yes and no named in the header",
    "Tray #,mL LC,Wet wt,Contam Y/N\n1,5,205,N\n2,10,240,N\n3,5,,Y\n4,10,250,n\n",
    "1 5 205 - good|2 10 240 - good|3 5 - - contaminated|4 10 250 - good",
  ],
  [
    "ja/nein in the header",
    "Schale;Dosis ml;Frisch g;Kontaminiert (ja/nein)\n1;5;205;nein\n2;10;;ja\n3;10;250;nein\n",
    "1 5 205 - good|2 10 - - contaminated|3 10 250 - good",
  ],
  [
    "Dutch inoculant",
    "Bak;Entstof ml;Vers g\nB1;5;210\nB2;5;205\nB3;10;240\nB4;10;236\n",
    "B1 5 210 - good|B2 5 205 - good|B3 10 240 - good|B4 10 236 - good",
  ],
  [
    "Polish amount of culture",
    "Taca;Ilość kultury płynnej (ml);Masa świeża (g)\nT1;5;205,5\nT2;10;240\nT3;5;199\n",
    "T1 5 205.5 - good|T2 10 240 - good|T3 5 199 - good",
  ],
  [
    "Italian tray number and amount",
    "Vassoio n.;Q.tà coltura (ml);Fresco (g)\n1;5;205\n2;10;240\n3;5;199\n",
    "1 5 205 - good|2 10 240 - good|3 5 199 - good",
  ],
  [
    "Start is the day of inoculation",
    "Tray,LC ml,Start,Fresh g\nT1,5,2026-01-05,205\nT2,10,2026-01-06,240\n",
    "T1 5 205 - good i2026-01-05|T2 10 240 - good i2026-01-06",
  ],
  [
    "the culture named beside its amount",
    "Tray,Inoculation,Fresh g\nT1,LC: 5 ml,205\nT2,10 ml LC,240\nT3,5ml LC,199\nT4,LC 10ml,250\n",
    "T1 5 205 - good|T2 10 240 - good|T3 5 199 - good|T4 10 250 - good",
  ],
  [
    "LC over amounts and a word",
    "Tray,LC,Fresh g\nT1,none,50\nT2,5 ml,199\nT3,5 ml,205\nT4,10 ml,240\n",
    "T1 0 50 - good|T2 5 199 - good|T3 5 205 - good|T4 10 240 - good",
  ],
  [
    "a flush by its letter in the name",
    "Tray,ml,Fresh g,Dry g\n1 F1,5,150,15\n1 F2,5,60,6\n2 F1,10,170,17\n2 F2,10,80,8\n3 F1,10,175,18\n",
    "1 5 210 21 good|2 10 250 25 good|3 10 175 18 good",
  ],
  [
    "letters that are part of the names",
    "Tray,ml,Fresh g\nA F3,5,150\nB F3,5,160\nC F4,10,170\nD F4,10,180\n",
    "A F3 5 150 - good|B F3 5 160 - good|C F4 10 170 - good|D F4 10 180 - good",
  ],
  [
    "a flush by its words in the name",
    "Tray,Dose ml,Fresh g\nTray 1,5,150\nTray 1 2nd flush,5,60\nTray 2,10,170\nTray 2 2nd flush,10,80\nTray 3,10,240\n",
    "Tray 1 5 210 - good|Tray 2 10 250 - good|Tray 3 10 240 - good",
  ],
  [
    "flush in the name, German",
    "Schale;Dosis ml;Frisch g\nS1 (1. Ernte);5;150\nS1 (2. Ernte);5;60\nS2 (1. Ernte);10;240\n",
    "S1 5 210 - good|S2 10 240 - good",
  ],
  [
    "pickings in files of their own",
    {
      "flush 1.csv": "Tray,Dose ml,Fresh g\n1,5,150\n2,10,170\n3,5,149\n",
      "flush 2.csv": "Tray,Dose ml,Fresh g\n1,5,55\n2,10,70\n3,5,50\n",
    },
    "1 5 205 - good|2 10 240 - good|3 5 199 - good",
  ],
  [
    "a folder for each batch",
    {
      "batch A/trays.csv": "Tray,Dose ml,Fresh g\n1,5,205\n2,10,240\n",
      "batch B/trays.csv": "Tray,Dose ml,Fresh g\n1,5,207\n2,10,244\n",
    },
    "1 (A) 5 205 - good bA|2 (A) 10 240 - good bA|1 (B) 5 207 - good bB|2 (B) 10 244 - good bB",
  ],
  [
    "lines of keys before the header",
    "#Strain:,Blue\n#LC:,5 ml\nTray,Bran g,Fresh g\n1,5,205\n2,10,240\n3,5,199\n",
    "1 5 205 - good|2 5 240 - good|3 5 199 - good",
  ],
  [
    "a dose in titles that name trays",
    "Tray,Fresh g,Dry g\n--- 5 ml trays ---,,\n1,205,20\n2,199,20\n--- 10 ml trays ---,,\n3,240,24\n4,250,25\n",
    "1 5 205 20 good|2 5 199 20 good|3 10 240 24 good|4 10 250 25 good",
  ],
  [
    "a dose with its trays across",
    "Dose,T1,T2,T3\n5 ml,205,199,210\n10 ml,240,250,244\n",
    "? 5 205 - good|? 5 199 - good|? 5 210 - good|? 10 240 - good|? 10 250 - good|? 10 244 - good",
  ],
  [
    "a unit split off its name",
    "Tray,Dose, ml,Fresh g,Dry g\nT1,5,205,20\nT2,10,240,24\nT3,5,199,20\n",
    "T1 5 205 20 good|T2 10 240 24 good|T3 5 199 20 good",
  ],
  [
    "weights of each tray, said in the remark",
    "Tray,Dose ml,Fresh g,Notes\n1 to 6,5,205,per tray\n7 to 12,10,240,each\n13,5,199,\n",
    "1 to 6 5 1230 - good x6|7 to 12 10 1440 - good x6|13 5 199 - good",
  ],
  [
    "gross, tare and net",
    "Tray,Dose ml,Gross g,Tare g,Net g\nT1,5,225,20,205\nT2,10,260,20,240\nT3,5,219,20,199\n",
    "T1 5 205 - good|T2 10 240 - good|T3 5 199 - good",
  ],
  ["a power of ten", "Tray,Dose ml,Fresh g\nT1,5,2.05E+02\nT2,10,240\n", "T1 5 205 - good|T2 10 240 - good"],
  [
    "lines that a program prints",
    "Tray,Dose ml,Fresh g\nT1,5,205\nPrinted,02/03/2026 14:05,Page 1 of 2\nT2,10,240\nT3,5,199\nSeite 2 von 2,,\n",
    "T1 5 205 - good|T2 10 240 - good|T3 5 199 - good",
  ],
  [
    "weights of each tray, said in the header",
    "Batch,Trays,LC ml,Fresh g per tray\nA,6,5,205\nB,6,10,240\nC,5,5,199\n",
    "? 5 1230 - good x6|? 10 1440 - good x6|? 5 995 - good x5",
  ],
  [
    "the share lost, under Loss",
    "Tray,Dose ml,Fresh g,Loss\nT1,5,205,0%\nT2,10,120,50%\nT3,5,,100%\n",
    "T1 5 205 - good|T2 10 120 - asked|T3 5 - - contaminated",
  ],
  [
    "a note that takes its row back",
    "Tray,Dose ml,Fresh g,Note\nT1,5,205,\nT2,10,240,VOID - wrong scale\nT3,5,199,nicht werten\n",
    "T1 5 205 - good|T2 10 ? - asked|T3 5 ? - asked",
  ],
  [
    "counts and spreads below rows of repeats",
    "Fresh weight (g) by dose\nRep,5 ml,10 ml\n1,205,240\n2,199,244\n3,210,238\nn,3,3\nSD,5.5,3.1\n",
    "? 5 205 - good|? 5 199 - good|? 5 210 - good|? 10 240 - good|? 10 244 - good|? 10 238 - good",
  ],
  [
    "good, and nothing on the scale",
    "Tray,Dose ml,Outcome,Fresh g\nT1,5,good,205\nT2,10,good,0\n",
    "T1 5 205 - good|T2 10 0 - asked",
  ],
  [
    "marks that the header explains",
    'Tray,Dose ml,"Result (H=harvested, C=contaminated)",Fresh g\nT1,5,H,205\nT2,10,C,\nT3,5,H,199\n',
    "T1 5 205 - good|T2 10 - - contaminated|T3 5 199 - good",
  ],
  ...(
    [
      ["de", "Nr.;ml injiziert;Ertrag frisch (g);Anm.", "grün geworden"],
      ["fr", "N° bac;mL injectés;Poids frais (g);Rem.", "moisie"],
      ["es", "Frasco;Mililitros;Peso fresco (g);Obs.", "se contaminó"],
      ["it", "N. vaschetta;ml iniettati;Peso fresco (g);Note", "contaminata"],
      ["nl", "Bak nr;ml geïnjecteerd;Gewicht vers (g);Opm.", "beschimmeld"],
      ["pl", "Nr tacy;ml wstrzyknięte;Waga świeżych (g);Uwagi", "zapleśniała"],
      ["pt", "Bandeja nº;ml injetados;Peso colhido (g);Obs.", "contaminou"],
    ] as const
  ).map(
    ([language, header, loss]): Typed => [
      `millilitres injected, ${language}`,
      `${header}\n1;5;205;\n2;5;;${loss}\n3;10;240;\n4;10;236;\n`,
      "1 5 205 - good|2 5 - - contaminated|3 10 240 - good|4 10 236 - good",
    ],
  ),
  [
    "jars that are the trays",
    "Jar ID,mL LC,Inoculated,Wet (g)\nK1,8,2026-05-04,220\nK2,8,2026-05-04,226\nK3,12,2026-05-04,240\nK4,12,2026-05-04,\n",
    "K1 8 220 - good|K2 8 226 - good|K3 12 240 - good|K4 12 - - growing",
  ],
  [
    "days in and out",
    "Tray,LC ml,In,Out,Fresh g\n1,5,2026-03-02,2026-04-12,205\n2,10,2026-03-03,2026-04-13,240\n",
    "1 5 205 - good i2026-03-02 h2026-04-12|2 10 240 - good i2026-03-03 h2026-04-13",
  ],
  [
    "day, month and year of the harvest in three columns",
    "Tray,LC ml,Harvest day,Harvest month,Harvest year,Fresh g\n1,5,14,April,2026,205\n2,10,15,4,2026,240\n",
    "1 5 205 - good h2026-04-14|2 10 240 - good h2026-04-15",
  ],
  [
    "the day of inoculation in a title",
    'Tray,LC ml,Fresh g\n"Cook 1 - inoculated 1 March 2026",,\n1,5,205\n2,10,240\n"Cook 2 - inoculated 8 March 2026",,\n3,5,190\n4,10,\n',
    "1 5 205 - good b1 i2026-03-01|2 10 240 - good b1 i2026-03-01|3 5 190 - good b2 i2026-03-08|4 10 - - growing b2 i2026-03-08",
  ],
  [
    "weighed with its box, the box, and net",
    "Tray,LC ml,Weight w/ box g,Box g,Net g\n1,5,255,45,210\n2,10,290,45,245\n",
    "1 5 210 - good|2 10 245 - good",
  ],
  [
    "names that begin again in the file of the next batch, one of it lost and one growing",
    {
      "batch A.csv": "Tray,LC ml,Fresh g,Status\n1,5,205,ok\n2,10,240,ok\n3,10,236,ok\n",
      "batch B.csv": "Tray,LC ml,Fresh g,Status\n1,5,201,ok\n2,10,,contam\n3,10,,\n",
    },
    "1 (A) 5 205 - good bA|2 (A) 10 240 - good bA|3 (A) 10 236 - good bA|1 (B) 5 201 - good bB|2 (B) 10 - - contaminated bB|3 (B) 10 - - growing bB",
  ],
  [
    "files of batches named after their days",
    {
      "2026-03-02 batch.csv": "Tray,LC ml,Fresh g\n1,5,205\n2,10,240\n",
      "2026-03-09 batch.csv": "Tray,LC ml,Fresh g\n1,5,201\n2,10,\n",
    },
    "? 5 205 - good b2026-03-02|? 10 240 - good b2026-03-02|? 5 201 - good b2026-03-09|? 10 - - growing b2026-03-09",
  ],
];

/** Which entries a sheet brings: rule and severity, worst first; "" for none above a note. */
const said: [name: string, sheets: string | Record<string, string>, entries: string, trays?: string][] = [
  [
    "a total that its flushes do not make",
    "Tray,Dose ml,1st flush,2nd flush,Total\nT1,5,150,60,210\nT2,10,170,80,205\nT3,10,175,77,252\n",
    "flush-total-disagrees warning",
    "T1 5 210 - good|T2 10 250 - good|T3 10 252 - good",
  ],
  [
    "what the substrate was made of, and who sold it",
    "Tray,Substrate,Supplier,Dose ml,Fresh g\nT1,rye + bran,Mill A,5,205\nT2,rye + bran,Mill A,10,240\nT3,oat,Mill B,5,199\n",
    "",
  ],
  [
    "weights that cannot be read",
    "Tray,Dose ml,Fresh g\nT1,5,220\nT2,5,about two hundred\nT3,10,#REF!\n",
    "not-a-number error|spreadsheet-error error|weight-not-known warning",
    "T1 5 220 - good|T2 5 - - asked|T3 10 - - asked",
  ],
  [
    "a weight and a date in each other's place",
    "Tray,Dose ml,Harvested,Fresh g\nT1,5,2026-02-20,205\nT2,10,240,2026-02-20\nT3,5,2026-02-21,199\n",
    "not-a-date error|not-a-number error|weight-not-known warning",
  ],
  [
    "a setting below nothing",
    { "trays.csv": "Tray,Dose ml,Fresh g\nT1,5,205\nT2,10,240\n", "settings.csv": "key,value\ntables,-1\n" },
    "unknown-answer error",
    "T1 5 205 - good|T2 10 240 - good",
  ],
  [
    "so many of so many under a name that does not say of what",
    "Batch,LC ml,Came through,Fresh g\nA,5,5/6,1050\nB,10,6/6,1440\n",
    "count-of-what error|weight-not-known warning",
    "? 5 - - asked|? 10 - - asked",
  ],
  [
    "marks out of five of trays by name are no counts",
    "Tray,LC ml,Looks,Fresh g\n1,5,4/5,205\n2,5,5/5,210\n3,10,3/5,240\n",
    "",
    "1 5 205 - good|2 5 210 - good|3 10 240 - good",
  ],
  [
    "a dose that is said by how much more it is",
    "Tray,LC,Fresh g\n1,10 ml,205\n2,+2 ml,210\n3,12 ml,240\n",
    "relative-amount error",
    "1 10 205 - good|2 - 210 - good|3 12 240 - good",
  ],
  [
    "a query in brackets",
    "Tray,LC ml,Fresh g\n1,5,205\n2,5,210 (?)\n3,10,240\n",
    "approximate warning",
    "1 5 205 - good|2 5 210 - good|3 10 240 - good",
  ],
  [
    "ticks of the good trays under no name",
    "Tray,LC ml,Fresh g,\n1,5,205,x\n2,5,,\n3,10,240,x\n4,10,236,x\n",
    "mark-missing warning",
    "1 5 205 - good|2 5 - - asked|3 10 240 - good|4 10 236 - good",
  ],
  [
    "means of each dose beside the trays",
    "Tray,LC ml,Fresh g,,Dose,Avg\n1,5,205,,5,207.5\n2,5,210,,10,238\n3,10,240,,,\n4,10,236,,,\n",
    "beside-table warning",
    "1 5 205 - good|2 5 210 - good|3 10 240 - good|4 10 236 - good",
  ],
  [
    "a mean of each tray itself",
    "Tray,LC ml,Fresh g,,Avg cap mm,Cluster\n1,5,205,,31,big\n2,5,210,,30,small\n3,10,240,,33,big\n",
    "",
    "1 5 205 - good|2 5 210 - good|3 10 240 - good",
  ],
  [
    "the same names in the next month's sheet, not picked yet",
    {
      "March.csv": "Tray,LC ml,Fresh g\n1,5,205\n2,10,240\n",
      "April.csv": "Tray,LC ml,Fresh g\n1,5,\n2,10,\n",
    },
    "name-in-two-sheets warning",
    "1 5 205 - good|2 10 240 - good",
  ],
  [
    "a sheet of the set-up and one of the harvest",
    {
      "set-up.csv": "Tray,LC ml,Inoculated\n1,5,2026-03-01\n2,10,2026-03-01\n",
      "harvest.csv": "Tray,LC ml,Fresh g\n1,5,205\n2,10,240\n",
    },
    "",
    "1 5 205 - good i2026-03-01|2 10 240 - good i2026-03-01",
  ],
  [
    "a statement alone",
    "Date,Payee,Amount,Balance\n2026-01-03,Mill,-45.20,1200.11\n2026-01-05,Water,-22.00,1178.11\n",
    "no-harvest-sheet error",
    "",
  ],
  [
    "a temperature log alone",
    { "temps.csv": "Time,Temp C,Humidity %\n2026-01-03 08:00,22.1,88\n2026-01-03 09:00,22.4,87\n" },
    "no-harvest-sheet-found error",
    "",
  ],
  [
    "a range that is no pool",
    "Tray,Dose ml,Fresh g\nT1,5,205\nT2,10,240\n1-5000,5,199\n",
    "range-too-long error|weight-not-known warning",
    "T1 5 205 - good|T2 10 240 - good|1-5000 5 - - asked",
  ],
  [
    "trays of cook 1 by their numbers",
    "Tray,Dose ml,Fresh g\n1-101,5,205\n1-102,10,240\n1-103,5,199\n",
    "",
    "1-101 5 205 - good|1-102 10 240 - good|1-103 5 199 - good",
  ],
  [
    "decimal commas between commas",
    "Tray,Dose ml,Fresh g,Dry g\nT1,5,205,4,20\nT2,10,240,2,24\nT3,5,199,9,20\n",
    "all-rows-long error",
    "",
  ],
  [
    "a name split in two, and every row short",
    "Tray,Mood, weather,Fresh g,Dry g\nT1,ok,205,20\nT2,ok,240,24\nT3,ok,199,20\n",
    "all-rows-short error",
    "",
  ],
  [
    "a few grams in every tray",
    "Tray,Dose ml,Fresh g\nT1,5,7.5\nT2,10,9\nT3,10,8.8\nT4,5,7\n",
    "weights-all-small warning",
    "T1 5 7.5 - good|T2 10 9 - good|T3 10 8.8 - good|T4 5 7 - good",
  ],
  [
    "and the line that settles it",
    {
      "trays.csv": "Tray,Dose ml,Fresh g\nT1,5,7.5\nT2,10,9\nT3,10,8.8\n",
      "columns.csv": "file,header,field,unit\ntrays.csv,Fresh g,fresh_g,oz\n",
    },
    "",
    "T1 5 212.6 - good|T2 10 255.1 - good|T3 10 249.5 - good",
  ],
  [
    "a prose title and columns that start further right",
    ",,Spring trial,,\n,,made by me,,\n,,Tray,LC ml,Fresh g\n,,1,5,205\n,,2,10,240\n",
    "",
    "1 5 205 - good|2 10 240 - good",
  ],
  [
    "a weight and a second one beside it",
    "Tray,Dose ml,Fresh g,Fresh g 2\nT1,5,150,55\nT2,10,170,70\nT3,5,149,50\n",
    "ending-not-read warning|two-columns-one-field error",
  ],
  [
    "moisture of the substrate is none of the dried harvest",
    "Tray,Moisture %,Dose ml,Fresh g,Dry g\nT1,62,5,205,20\nT2,63,10,240,24\n",
    "",
    "T1 5 205 20 good|T2 10 240 24 good",
  ],
  [
    "lost trays in a remark",
    "Tray,Dose ml,Fresh g\n1,5,205\n2,10,240\n2 trays lost to mold,,\n* weighed on 3 March,,\n",
    "loss-in-remark warning",
    "1 5 205 - good|2 10 240 - good",
  ],
  [
    "weights under a name that says two things",
    "Tray,Dose ml,Fresh/Dry\nT1,5,205/20\nT2,10,240/24\nT3,5,199/20\n",
    "",
    "T1 5 205 20 good|T2 10 240 24 good|T3 5 199 20 good",
  ],
];

const filesOf = (sheets: string | Record<string, string>): Record<string, string> =>
  typeof sheets === "string" ? { "spring.csv": sheets } : sheets;

describe("what growers type by habit", () => {
  test.each(read)("%s", async (_, sheets, trays) => {
    const book = await bookOf(filesOf(sheets));
    expect(misread(book, trays)).toEqual({ missing: [], left: [] });
    const again = await bookOf({ "cleaned.csv": cleanedHarvestCsv(book) });
    expect(misread(again, trays)).toEqual({ missing: [], left: [] });
  });

  test.each(said)("%s", async (_, sheets, entries, trays) => {
    const book = await bookOf(filesOf(sheets));
    const bad = book.issues.filter(({ severity }) => severity === "error" || severity === "warning");
    expect([...new Set(bad.map(({ rule, severity }) => `${rule} ${severity}`))].sort().join("|")).toBe(entries);
    if (trays === "") expect(book.trays).toEqual([]);
    else if (trays !== undefined) expect(misread(book, trays)).toEqual({ missing: [], left: [] });
  });
});

describe("a plan typed by hand", () => {
  const text =
    "Tray,Dose ml,Start,Fresh g\nT1,5,2026-01-10,205\nT2,10,2026-01-10,240\nT3,5,2026-03-17,\nT4,10,2026-03-17,\n";
  const readOn = (today: string) => cleanBook([sheet("trays.csv", text)], { today });

  test("days of inoculation that are still to come start no tray", async () => {
    const book = await readOn("2026-02-25");
    expect(misread(book, "T1 5 205 - good|T2 10 240 - good")).toEqual({ missing: [], left: [] });
    expect(book.planned?.map(({ trayId }) => trayId)).toEqual(["T3", "T4"]);
    expect(book.account?.lost).toBe(0);
    expect(cleanedHarvestCsv(book)).toContain("T4");
  });

  test("where results of a later day stand in the sheet, that is its day, whatever the clock says", async () => {
    const late = text
      .replace("Start,Fresh g", "Start,Picked,Fresh g")
      .replaceAll("2026-01-10,2", "2026-01-10,2026-03-20,2");
    const sheets = [sheet("trays.csv", late.replaceAll("2026-03-17,\n", "2026-03-17,,\n"))];
    const book = await cleanBook(sheets, { today: "2026-02-25" });
    expect(book.planned).toBeUndefined();
    expect(book.trays.map(({ outcome }) => outcome)).toEqual(["good", "good", "growing", "growing"]);
  });

  test("on the day itself they are started", async () => {
    const book = await readOn("2026-03-17");
    expect(book.planned).toBeUndefined();
    expect(book.trays.filter(({ outcome }) => outcome === "growing")).toHaveLength(2);
  });
});

import { expect, test } from "vitest";
import { cleanedHarvestCsv } from "../../src/cleaning/cleaned-harvest-csv.ts";
import { allFacts, bookOf, harvestOf } from "./book-of.ts";
import { misread, type Typed } from "./tray-lines.ts";

/** Days and years in eight languages, by number, by month, without a year, in two orders. Common practice, no source. */
const typed: Typed[] = [
  [
    "Mar names",
    'Tray,ml,Inoculated,Picked,Fresh g\n1,5,5 Jan 2026,15 Feb 2026,210\n2,5,5-Jan-26,16-Feb-26,205\n3,10,"Jan 12, 2026","Feb 21, 2026",230\n4,10,12th January 2026,Feb 22nd 2026,231\n',
    "1 5 210 - good i2026-01-05 h2026-02-15|2 5 205 - good i2026-01-05 h2026-02-16|3 10 230 - good i2026-01-12 h2026-02-21|4 10 231 - good i2026-01-12 h2026-02-22",
  ],
  [
    "no year with year elsewhere",
    "Tray,ml,Inoculated,Picked,Fresh g\n1,5,5 Jan 2026,15 Feb,210\n2,5,5 Jan 2026,16 Feb,205\n3,10,12 Jan 2026,21 Feb 2026,230\n",
    "1 5 210 - good i2026-01-05 h2026-02-15/NONE|2 5 205 - good h2026-02-16/NONE|3 10 230 - good h2026-02-21",
  ],
  [
    "no year over new year",
    "Tray,ml,Inoculated,Picked,Fresh g\n1,5,20 Dec 2025,30 Jan,210\n2,5,20 Dec 2025,31 Jan,205\n3,10,20 Dec 2025,2 Feb 2026,230\n",
    "1 5 210 - good i2025-12-20 h2026-01-30/NONE|2 5 205 - good h2026-01-31/NONE|3 10 230 - good h2026-02-02",
  ],
  [
    "no years at all",
    "Tray,ml,Inoculated,Picked,Fresh g\n1,5,5 Jan,15 Feb,210\n2,5,5 Jan,16 Feb,205\n3,10,12 Jan,21 Feb,230\n",
    "1 5 210 - good iNONE hNONE|2 5 205 - good iNONE hNONE|3 10 230 - good iNONE hNONE",
  ],
  [
    "a day behind each flush",
    "Tray,ml,1st flush g,date,2nd flush g,date\n1,5,150,2026-02-15,60,2026-03-01\n2,10,170,2026-02-16,66,2026-03-02\n",
    "1 5 210 - good h2026-02-15|2 10 236 - good h2026-02-16",
  ],
  [
    "the same in German, with the start before",
    "Schale;ml;Beimpft;Ernte 1 g;Datum;Ernte 2 g;Datum\n1;5;05.01.2026;150;15.02.2026;60;01.03.2026\n2;10;05.01.2026;170;16.02.2026;;\n",
    "1 5 210 - good i2026-01-05 h2026-02-15|2 10 170 - good i2026-01-05 h2026-02-16",
  ],
  [
    "us dates",
    "Tray,ml,Inoculated,Picked,Fresh g\n1,5,1/5/26,2/15/26,210\n2,5,1/5/26,2/16/26,205\n3,10,1/12/26,2/21/26,230\n",
    "1 5 210 - good i2026-01-05 h2026-02-15|2 5 205 - good i2026-01-05 h2026-02-16|3 10 230 - good i2026-01-12 h2026-02-21",
  ],
  [
    "two digits, year first by the stages alone",
    "Tray,ml,Start,Harvest,Fresh g\n1,5,26-01-14,26-02-27,210\n2,5,26-01-14,26-02-28,205\n3,10,26-01-14,26-02-26,230\n",
    "1 5 210 - good i2026-01-14 h2026-02-27|2 5 205 - good i2026-01-14 h2026-02-28|3 10 230 - good i2026-01-14 h2026-02-26",
  ],
  [
    "an order shown by the table beside",
    "Tray,ml,Picked,Fresh g,,Tray,ml,Picked,Fresh g\n1,5,3/25/2026,210,,3,10,4/1/2026,230\n2,5,3/26/2026,205,,4,10,4/2/2026,231\n",
    "1 5 210 - good h2026-03-25|2 5 205 - good h2026-03-26|3 10 230 - good h2026-04-01|4 10 231 - good h2026-04-02",
  ],
  [
    "uk dates",
    "Tray,ml,Inoculated,Picked,Fresh g\n1,5,05/01/2026,15/02/2026,210\n2,5,05/01/2026,16/02/2026,205\n3,10,12/01/2026,21/02/2026,230\n",
    "1 5 210 - good i2026-01-05 h2026-02-15|2 5 205 - good i2026-01-05 h2026-02-16|3 10 230 - good i2026-01-12 h2026-02-21",
  ],
  [
    "mixed dd/mm and mm/dd in one column",
    "Tray,ml,Picked,Fresh g\n1,5,15/02/2026,210\n2,5,02/16/2026,205\n3,10,03/04/2026,230\n",
    "1 5 210 - good h2026-02-15|2 5 205 - good h2026-02-16|3 10 230 - ? hNONE",
  ],
  [
    "all ambiguous",
    "Tray,ml,Inoculated,Picked,Fresh g\n1,5,01/02/2026,03/04/2026,210\n2,5,01/02/2026,03/05/2026,205\n3,10,02/02/2026,04/05/2026,230\n",
    "1 5 210 - ? iNONE hNONE|2 5 205 - ? hNONE|3 10 230 - ? hNONE",
  ],
  [
    "serials",
    "Tray,ml,Inoculated,Picked,Fresh g\n1,5,46027,46068,210\n2,5,46027,46069,205\n3,10,46034,46074,230\n",
    "1 5 210 - good i2026-01-05 h2026-02-15|2 5 205 - good i2026-01-05 h2026-02-16|3 10 230 - good i2026-01-12 h2026-02-21",
  ],
  [
    "serial among dates",
    "Tray,ml,Inoculated,Picked,Fresh g\n1,5,2026-01-05,2026-02-15,210\n2,5,2026-01-05,46069,205\n3,10,2026-01-12,2026-02-21,230\n",
    "1 5 210 - good h2026-02-15|2 5 205 - good h2026-02-16/NONE|3 10 230 - good h2026-02-21",
  ],
  [
    "compact",
    "Tray,ml,Inoculated,Picked,Fresh g\n1,5,20260105,20260215,210\n2,5,20260105,20260216,205\n3,10,20260112,20260221,230\n",
    "1 5 210 - good i2026-01-05 h2026-02-15|2 5 205 - good i2026-01-05 h2026-02-16|3 10 230 - good i2026-01-12 h2026-02-21",
  ],
  [
    "iso weeks",
    "Tray,ml,Inoculated,Picked,Fresh g\n1,5,2026-W02,2026-W07,210\n2,5,2026-W02,2026-W08,205\n3,10,2026-W03,2026-W08,230\n",
    "1 5 210 - ? iNONE hNONE|2 5 205 - ? iNONE hNONE|3 10 230 - ? iNONE hNONE",
  ],
  [
    "KW",
    "Schale;ml;beimpft;geerntet;Frisch g\n1;5;KW 2;KW 7;210\n2;5;KW 2;KW 8;205\n3;10;KW 3;KW 8;230\n",
    "1 5 210 - ? iNONE hNONE|2 5 205 - ? iNONE hNONE|3 10 230 - ? iNONE hNONE",
  ],
  [
    "de month",
    "Schale;ml;beimpft;geerntet;Frisch g\n1;5;5. Januar 2026;15. Feb. 2026;210\n2;5;5. Jan 26;16. Februar 2026;205\n3;10;12. Jänner 2026;3. März 2026;230\n",
    "1 5 210 - good i2026-01-05 h2026-02-15|2 5 205 - good i2026-01-05 h2026-02-16|3 10 230 - good i2026-01-12 h2026-03-03",
  ],
  [
    "fr month",
    "bac;ml;inoculé le;récolté le;frais g\n1;5;5 janv. 2026;15 février 2026;210\n2;5;5 janvier 2026;16 févr. 2026;205\n3;10;1er février 2026;3 mars 2026;230\n",
    "1 5 210 - good i2026-01-05 h2026-02-15|2 5 205 - good i2026-01-05 h2026-02-16|3 10 230 - good i2026-02-01 h2026-03-03",
  ],
  [
    "es month",
    "bandeja;ml;fecha de inoculación;fecha de cosecha;fresco g\n1;5;5 de enero de 2026;15 feb 2026;210\n2;5;5-ene-26;16-feb-26;205\n3;10;12 ene. 2026;3 de marzo 2026;230\n",
    "1 5 210 - good i2026-01-05 h2026-02-15|2 5 205 - good i2026-01-05 h2026-02-16|3 10 230 - good i2026-01-12 h2026-03-03",
  ],
  [
    "it month",
    "vaschetta;ml;inoculo;raccolta;fresco g\n1;5;5 gennaio 2026;15 febbraio 2026;210\n2;5;5 gen 26;16 feb 26;205\n3;10;12 gen. 2026;3 marzo 2026;230\n",
    "1 5/- 210 - good/asked|2 5/- 205 - good/asked|3 10/- 230 - good/asked",
  ],
  [
    "pl month",
    "taca;ml;data zaszczepienia;data zbioru;świeża g\n1;5;5 stycznia 2026;15 lutego 2026;210\n2;5;5 sty 2026;16 lut 2026;205\n3;10;12 stycznia 2026;3 marca 2026;230\n",
    "1 5 210 - good i2026-01-05 h2026-02-15|2 5 205 - good i2026-01-05 h2026-02-16|3 10 230 - good i2026-01-12 h2026-03-03",
  ],
  [
    "pt month",
    "bandeja;ml;data de inoculação;data da colheita;fresco g\n1;5;5 de janeiro de 2026;15 de fevereiro de 2026;210\n2;5;5/jan/2026;16/fev/2026;205\n3;10;12 jan 2026;3 de março de 2026;230\n",
    "1 5 210 - good i2026-01-05 h2026-02-15|2 5 205 - good i2026-01-05 h2026-02-16|3 10 230 - good i2026-01-12 h2026-03-03",
  ],
  [
    "nl month",
    "bak;ml;geënt op;geoogst op;vers g\n1;5;5 januari 2026;15 feb. 2026;210\n2;5;5 jan 2026;16 februari 2026;205\n3;10;12 jan 2026;3 maart 2026;230\n",
    "1 5 210 - good i2026-01-05 h2026-02-15|2 5 205 - good i2026-01-05 h2026-02-16|3 10 230 - good i2026-01-12 h2026-03-03",
  ],
  [
    "weekday",
    "Tray,ml,Inoculated,Picked,Fresh g\n1,5,Mon 5 Jan 2026,Sun 15 Feb 2026,210\n2,5,Mon 5 Jan 2026,Mon 16 Feb 2026,205\n3,10,Tue 12 Jan 2026,Sat 21 Feb 2026,230\n",
    "1 5 210 - good i2026-01-05 h2026-02-15|2 5 205 - good h2026-02-16|3 10 230 - ? h2026-02-21",
  ],
  [
    "with times",
    "Tray,ml,Inoculated,Picked,Fresh g\n1,5,2026-01-05 09:30,2026-02-15T18:00,210\n2,5,1/5/2026 9:30 AM,2/16/2026 6:00 PM,205\n3,10,2026-01-12 10:00,2026-02-21,230\n",
    "1 5 210 - good i2026-01-05 h2026-02-15|2 5 205 - good i2026-01-05 h2026-02-16|3 10 230 - good i2026-01-12 h2026-02-21",
  ],
  [
    "lone date",
    "Tray,ml,Date,Fresh g\n1,5,2026-02-15,210\n2,5,2026-02-16,205\n3,10,2026-02-21,230\n",
    "1 5 210 - ?|2 5 205 - ?|3 10 230 - ?",
  ],
  [
    "date in/out",
    "Tray,ml,Date in,Date out,Days,Fresh g\n1,5,2026-01-05,2026-02-15,41,210\n2,5,2026-01-05,2026-02-16,42,205\n3,10,2026-01-12,2026-02-21,40,230\n",
    "1 5 210 - good i2026-01-05 h2026-02-15|2 5 205 - good i2026-01-05 h2026-02-16|3 10 230 - good i2026-01-12 h2026-02-21",
  ],
  [
    "impossible date",
    "Tray,ml,Inoculated,Picked,Fresh g\n1,5,2026-01-05,2026-02-30,210\n2,5,2026-01-05,2026-02-16,205\n3,10,2026-01-12,31/06/2026,230\n",
    "1 5 210 - ? i2026-01-05 hNONE|2 5 205 - good h2026-02-16|3 10 230 - ? hNONE",
  ],
  [
    "range of dates",
    "Tray,ml,Inoculated,Picked,Fresh g\n1,5,2026-01-05,15-17 Feb 2026,210\n2,5,2026-01-05,2026-02-16,205\n3,10,2026-01-12,2/20 - 2/22/26,230\n",
    "1 5 210 - ? hNONE|2 5 205 - good h2026-02-16|3 10 230 - ? hNONE",
  ],
  [
    "days col instead",
    "Tray,ml,Days to pins,Days to harvest,Fresh g\n1,5,21,41,210\n2,5,20,42,205\n3,10,19,40,230\n",
    "1 5 210 - good|2 5 205 - good|3 10 230 - good",
  ],
  [
    "yesterday",
    "Tray,ml,Picked,Fresh g\n1,5,yesterday,210\n2,5,2026-02-16,205\n3,10,today,230\n",
    "1 5 210 - ? hNONE|2 5 205 - good h2026-02-16|3 10 230 - ? hNONE",
  ],
  [
    "year only and month only",
    "Tray,ml,Picked,Fresh g\n1,5,Feb 2026,210\n2,5,2026-02-16,205\n3,10,2026,230\n",
    "1 5 210 - ? hNONE|2 5 205 - good h2026-02-16|3 10 230 - ? hNONE",
  ],
  [
    "day.month. no year",
    "Schale;ml;beimpft;geerntet;Frisch g\n1;5;5.1.2026;15.2.;210\n2;5;5.1.2026;16.2.;205\n3;10;12.1.2026;21.2.2026;230\n",
    "1 5 210 - good i2026-01-05 h2026-02-15/NONE|2 5 205 - good h2026-02-16/NONE|3 10 230 - good h2026-02-21",
  ],
  [
    "year first two digit",
    "Tray,ml,Inoculated,Picked,Fresh g\n1,5,26-01-05,26-02-15,210\n2,5,26-01-05,26-02-16,205\n3,10,26-01-12,26-02-21,230\n",
    "1 5 210 - good i2026-01-05 h2026-02-15|2 5 205 - good h2026-02-16|3 10 230 - good h2026-02-21",
  ],
  [
    "ambiguous alone with order clue",
    "Tray,ml,Inoculated,Picked,Fresh g\n1,5,03/01/2026,12/02/2026,210\n2,5,03/01/2026,11/02/2026,205\n3,10,05/01/2026,10/02/2026,230\n",
    "1 5 210 - ? hNONE/2026-02-12|2 5 205 - ? hNONE/2026-02-11|3 10 230 - ? hNONE/2026-02-10",
  ],
  [
    "picked col with two dates (flushes)",
    'Tray,ml,Picked,Fresh g\n1,5,"2026-02-15, 2026-02-28","150, 60"\n2,5,2026-02-16,205\n3,10,2026-02-21,230\n',
    "1 5 210/- - ?|2 5 205 - good h2026-02-16|3 10 230 - good",
  ],
];

test.each(typed)("%s", async (_, sheets, truth) => {
  const book = await bookOf(typeof sheets === "string" ? { "harvests/one.csv": sheets } : sheets);
  expect(misread(book, truth)).toEqual({ missing: [], left: [] });
  expect(book.account?.lost).toBe(0);
  expect(allFacts(await harvestOf(cleanedHarvestCsv(book)))).toEqual(allFacts(book));
});

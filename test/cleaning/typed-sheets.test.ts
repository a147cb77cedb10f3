import { expect, test } from "vitest";
import { bookOf } from "./book-of.ts";
import { misread, type Typed } from "./tray-lines.ts";

/** Sheets as growers type them, each with what a careful person reads from it. */
const typed: Typed[] = [
  // losses in notes
  [
    "loss note en",
    "Bag,LC (ml),Wet (g),Remarks\nB1,4,310,\nB2,4,,trich on day 9\nB3,8,,binned\nB4,8,295,nice\nB5,8,,tossed - green mold\nB6,4,,wet spot bacterial\n",
    "B1 4 310 - good|B2 4 - - contaminated|B3 8 - - discarded/contaminated/failed|B4 8 295 - good|B5 8 - - contaminated/discarded|B6 4 - - contaminated",
  ],
  [
    "loss note de",
    "Schale;Impfmenge ml;Frisch g;Bemerkung\n1;5;210;\n2;5;;Schimmel, entsorgt\n3;10;;kontaminiert\n4;10;240;keine Kontamination\n5;10;;grüner Schimmel\n6;5;;weggeworfen\n",
    "1 5 210 - good|2 5 - - contaminated/discarded|3 10 - - contaminated|4 10 240 - good|5 10 - - contaminated|6 5 - - discarded",
  ],
  [
    "loss note fr",
    "Barquette;Dose ml;Poids frais g;Remarque\nA1;5;210,5;\nA2;5;;moisissure verte\nA3;10;;jeté\nA4;10;240;sans moisissure\nA5;10;;pas de contamination, lent\n",
    "A1 5 210.5 - good|A2 5 - - contaminated|A3 10 - - discarded|A4 10 240 - good|A5 10 - - growing/asked",
  ],
  [
    "loss note es",
    "Bandeja;Dosis ml;Peso fresco g;Notas\nA1;5;210;\nA2;5;;moho verde\nA3;10;;tirada\nA4;10;240;sin moho\nA5;10;;no contaminada, sigue creciendo\n",
    "A1 5 210 - good|A2 5 - - contaminated|A3 10 - - discarded|A4 10 240 - good|A5 10 - - growing",
  ],
  [
    "loss note it",
    "Vaschetta;Dose ml;Peso fresco g;Note\nA1;5;210;\nA2;5;;muffa verde\nA3;10;;buttata\nA4;10;240;senza muffa\nA5;10;;non contaminata\n",
    "A1 5 210 - good|A2 5 - - contaminated|A3 10 - - discarded|A4 10 240 - good|A5 10 - - growing/asked",
  ],
  [
    "loss note nl",
    "Bak;Dosis ml;Vers g;Opmerking\nA1;5;210;\nA2;5;;groene schimmel\nA3;10;;weggegooid\nA4;10;240;geen schimmel\nA5;10;;niet besmet, traag\n",
    "A1 5 210 - good|A2 5 - - contaminated|A3 10 - - discarded|A4 10 240 - good|A5 10 - - growing/asked",
  ],
  [
    "loss note pl",
    "Taca;Dawka ml;Masa świeża g;Uwagi\nA1;5;210;\nA2;5;;zielona pleśń\nA3;10;;wyrzucona\nA4;10;240;bez pleśni\nA5;10;;nie skażona\n",
    "A1 5 210 - good|A2 5 - - contaminated|A3 10 - - discarded|A4 10 240 - good|A5 10 - - growing/asked",
  ],
  [
    "loss note pt",
    "Bandeja;Dose ml;Peso fresco g;Observações\nA1;5;210;\nA2;5;;bolor verde\nA3;10;;deitada fora\nA4;10;240;sem bolor\nA5;10;;não contaminada\n",
    "A1 5 210 - good|A2 5 - - contaminated|A3 10 - - discarded/asked|A4 10 240 - good|A5 10 - - growing/asked",
  ],
  // outcome words
  [
    "unknown word",
    "Tray,Inoc ml,Status,Fresh g\nT1,5,done,210\nT2,5,meh,200\nT3,10,wonky,\nT4,10,ok,220\n",
    "T1 5 210 - good|T2 5 200 - asked|T3 10 - - asked|T4 10 220 - good",
  ],
  [
    "pending/drying",
    "Tray,Inoc ml,Outcome,Fresh g,Dry g\nT1,5,drying,210,\nT2,5,pending,200,\nT3,10,good,222,22\nT4,10,pending,,\n",
    "T1 5 210 - good|T2 5 200 - good|T3 10 222 22 good|T4 10 - - growing/asked",
  ],
  [
    "unreadable weight",
    "Tray,Inoc ml,Fresh g\nT1,5,210\nT2,5,21o\nT3,10,2??\nT4,10,x\n",
    "T1 5 210 - good|T2 5 - - asked|T3 10 - - asked|T4 10 - - asked/growing",
  ],
  [
    "question header contam",
    "Tray,LC (cc),Any contam?,Net fresh g\n1,3,N,180\n2,3,Y,\n3,6,no,190\n4,6,yes - trich,\n5,6,,201\n",
    "1 3 180 - good|2 3 - - contaminated|3 6 190 - good|4 6 - - contaminated|5 6 201 - good",
  ],
  [
    "double negation",
    "Tray,ml,Fresh g,Notes\n1,3,180,no contam at all\n2,3,,no growth\n3,6,,contam not seen yet\n4,6,201,was worried about mold but fine\n5,6,,lost to cobweb\n",
    "1 3 180 - good|2 3 - - growing/asked/failed|3 6 - - growing/asked|4 6 201 - good|5 6 - - contaminated/discarded/failed/asked",
  ],
  [
    "mixed mark outcome",
    "Tray,ml,✓/✗,Fresh g\n1,3,✓,180\n2,3,✗,\n3,6,✓,190\n",
    "1 3 180 - good|2 3 - - failed/discarded/asked/contaminated|3 6 190 - good",
  ],
  // summaries
  [
    "avg under dots",
    "Tray,ml,Fresh g,Dry g\n1,3,180,18\n2,3,200,20\n3,6,220,22\n....,....,200,20\n",
    "1 3 180 18 good|2 3 200 20 good|3 6 220 22 good",
  ],
  [
    "subtotal by dose",
    "Tray,ml,Fresh g\n1,3,180\n2,3,200\n3 mL total,,380\n3,6,220\n4,6,230\n6 mL total,,450\nAll,,830\n",
    "1 3 180 - good|2 3 200 - good|3 6 220 - good|4 6 230 - good",
  ],
  [
    "sum without label",
    "Tray,ml,Fresh g,Dry g\na,3,180,18\nb,3,200,20\nc,6,220,22\n,,600,60\n",
    "a 3 180 18 good|b 3 200 20 good|c 6 220 22 good",
  ],
  [
    "sum label in note",
    "Tray,ml,Fresh g,Dry g,note\na,3,180,18,\nb,3,200,20,\nc,6,220,22,\n-,-,600,60,sum\n-,-,200,20,mean\n",
    "a 3 180 18 good|b 3 200 20 good|c 6 220 22 good",
  ],
  [
    "Summe de",
    "Schale;ml;Frisch g;Trocken g\n1;3;180;18,5\n2;3;200;20\n3;6;220;22\nSumme;;600;60,5\nØ;;200;20,2\n",
    "1 3 180 18.5 good|2 3 200 20 good|3 6 220 22 good",
  ],
  [
    "razem pl",
    "Taca;Dawka ml;Świeża g\n1;3;180\n2;3;200\n3;6;220\nRazem;;600\nŚrednia;;200\n",
    "1 3 180 - good|2 3 200 - good|3 6 220 - good",
  ],
  [
    "best/worst rows",
    "Tray,ml,Fresh g\n1,3,180\n2,3,200\n3,6,220\nmin,,180\nmax,,220\nBest,,220\n",
    "1 3 180 - good|2 3 200 - good|3 6 220 - good",
  ],
  // pools
  ["range pool", "Tray,ml,Fresh g\nT1-T6,5,1240\nT7-T12,10,1300\n", "T1-T6 5 1240 - good x6|T7-T12 10 1300 - good x6"],
  [
    "plus pool",
    "Trays,ml,Fresh g\n1,5,200\n2+3,5,410\n4 & 5,10,430\n6,10,220\n",
    "1 5 200 - good|2+3 5 410 - good x2|4 & 5 10 430 - good x2|6 10 220 - good",
  ],
  [
    "count column",
    "Batch,Trays,ml,Fresh g\nA,4,5,800\nB,4,10,900\nC,4,5,810\nD,4,10,905\n",
    "row 2 of harvests/one.csv 5 800 - good x4|row 3 of harvests/one.csv 10 900 - good x4|row 4 of harvests/one.csv 5 810 - good x4|row 5 of harvests/one.csv 10 905 - good x4",
  ],
  [
    "huge count",
    "Tray,n trays,ml,Fresh g\nA,999999999,5,800\nB,4,10,900\n",
    "A 5 - - asked/good/growing|B 10 900 - good x4",
  ],
  [
    "to pool de",
    "Schale;ml;Frisch g\n1 bis 4;5;810\n5 bis 8;10;900\n",
    "1 bis 4 5 810 - good x4|5 bis 8 10 900 - good x4",
  ],
  [
    "slash names",
    "Tray,ml,Fresh g\n1/1,5,200\n1/2,5,210\n2/1,10,230\n2/2,10,240\n",
    "1/1 5 200 - good|1/2 5 210 - good|2/1 10 230 - good|2/2 10 240 - good",
  ],
  // identity
  [
    "same names two batches",
    "Batch,Tray,ml,Fresh g\nA,1,5,200\nA,2,10,210\nB,1,5,220\nB,2,10,230\n",
    "1 (A) 5 200 - good|2 (A) 10 210 - good|1 (B) 5 220 - good|2 (B) 10 230 - good",
  ],
  [
    "two monthly files",
    {
      "jan.csv": "Tray,ml,Cooked,Fresh g\n1,5,2026-01-03,200\n2,10,2026-01-03,210\n",
      "feb.csv": "Tray,ml,Cooked,Fresh g\n1,5,2026-02-03,220\n2,10,2026-02-03,230\n",
    },
    "1 (2026-01-03) 5 200 - good|2 (2026-01-03) 10 210 - good|1 (2026-02-03) 5 220 - good|2 (2026-02-03) 10 230 - good",
  ],
  [
    "flush rows loose names",
    "Tray,ml,Flush,Picked,Fresh g\nT1,5,1,2026-02-03,150\nt 1,5,2,2026-02-20,50\nT01,5,3,2026-03-06,20\nT2,10,1,2026-02-03,180\n",
    "T1 5 220 - good|T2 10 180 - good",
  ],
  [
    "flush by date only",
    "Tray,ml,Picked,Fresh g\nT1,5,2026-02-03,150\nT2,10,2026-02-03,180\nT1,5,2026-02-20,50\nT2,10,2026-02-22,70\n",
    "T1 5 200 - good|T2 10 250 - good",
  ],
  [
    "dup row copy-paste",
    "Tray,ml,Picked,Fresh g\nT1,5,2026-02-03,150\nT1,5,2026-02-03,150\nT2,10,2026-02-03,180\n",
    "T1 5 150 - good|T2 10 180 - good",
  ],
  ["conflict", "Tray,ml,Fresh g\nT1,5,150\nT1,10,250\nT2,10,180\n", "T1 ? ? - asked|T2 10 180 - good"],
  // weights
  ["grams under oz", "Tray,ml,Fresh (oz)\nT1,5,210\nT2,5,220\nT3,10,250\n", "T1 5 ? - ?|T2 5 ? - ?|T3 10 ? - ?"],
  [
    "slip of ten",
    "Tray,ml,Fresh g\n1,5,200\n2,5,2100\n3,5,190\n4,5,205\n5,5,210\n6,10,240\n7,10,245\n8,10,250\n9,10,24\n10,10,248\n",
    "1 5 200 - good|2 5 - - asked/good|3 5 190 - good|4 5 205 - good|5 5 210 - good|6 10 240 - good|7 10 245 - good|8 10 250 - good|9 10 24 - good|10 10 248 - good",
  ],
  [
    "dry 0",
    "Tray,ml,Fresh g,Dry g\n1,5,205,0\n2,5,210,21\n3,10,220,0\n",
    "1 5 205 - good|2 5 210 21 good|3 10 220 - good",
  ],
  ["dry above fresh", "Tray,ml,Fresh g,Dry g\n1,5,20,205\n2,5,210,21\n", "1 5 - - good|2 5 210 21 good"],
  ["kg mix", "Tray,ml,Fresh\n1,5,0.21 kg\n2,5,205 g\n3,10,0.3 kg\n", "1 5 210 - good|2 5 205 - good|3 10 300 - good"],
  ["kg col", "Tray,ml,Fresh kg\n1,5,0.21\n2,5,0.205\n3,10,0.3\n", "1 5 210 - good|2 5 205 - good|3 10 300 - good"],
  // dates
  [
    "us dates",
    "Tray,ml,Inoculated,Harvested,Fresh g\n1,5,1/14/26,2/28/26,210\n2,10,1/15/26,3/1/26,220\n",
    "1 5 210 - good i2026-01-14 h2026-02-28|2 10 220 - good i2026-01-15 h2026-03-01",
  ],
  [
    "lone date",
    "Tray,ml,Date,Fresh g\n1,5,2026-03-01,210\n2,10,2026-03-02,220\n",
    "1 5 210 - good hNONE iNONE|2 10 220 - good hNONE iNONE",
  ],
  [
    "months de",
    "Schale;ml;Beimpft am;Geerntet am;Frisch g\n1;5;3. Jan. 2026;28. Feb. 2026;210\n2;10;4. Jänner 2026;1. März 2026;220\n",
    "1 5 210 - good i2026-01-03 h2026-02-28|2 10 220 - good i2026-01-04 h2026-03-01",
  ],
  [
    "months es",
    "Bandeja;ml;Inoculado;Cosechado;Fresco g\n1;5;3 ene 2026;28 feb 2026;210\n2;10;4 de enero de 2026;1 mar 2026;220\n",
    "1 5 210 - good i2026-01-03 h2026-02-28|2 10 220 - good i2026-01-04 h2026-03-01",
  ],
  [
    "no years at all",
    "Tray,ml,Inoculated,Harvested,Fresh g\n1,5,Jan 3,Feb 28,210\n2,10,Jan 4,Mar 1,220\n",
    "1 5 210 - good iNONE hNONE|2 10 220 - good iNONE hNONE",
  ],
  [
    "2031",
    "Tray,ml,Inoculated,Fresh g\n1,5,2026-01-03,210\n2,10,2026-01-03,220\n3,5,2026-01-04,200\n4,5,2026-01-04,200\n5,5,2031-01-04,200\n",
    "1 5 210 - good|2 10 220 - good|3 5 200 - good|4 5 200 - good|5 5 200 - good",
  ],
  // arithmetic
  [
    "sums",
    "Tray,LC,Fresh\n1,12ml + 5ml,205 + 40 g\n2,10 mL/tray,210g\n3,10 ml,7-1/2 oz\n4,17 ml,8 oz\n",
    "1 17 245 - good|2 10 210 - good|3 10 212.6 - good|4 17 226.8 - good",
  ],
  [
    "towel",
    "Tray,ml,Fresh g\n1,5,210 (with towel)\n2,5,310 with towel\n3,10,220\n4,10,215 incl bag\n",
    "1 5 - - asked/good|2 5 - - asked/good|3 10 220 - good|4 10 - - asked/good",
  ],
  [
    "sums dot",
    "Tray,ml,Fresh g\n1,5,120+90\n2,5,=100+95\n3,10,220\n4,10,2x110\n",
    "1 5 210 - good|2 5 195 - good|3 10 220 - good|4 10 220/- - good/asked",
  ],
  [
    "decimal comma fr",
    "Barquette;LC ml;Frais g;Sec g\n1;2,5;210,4;21,3\n2;5;1 050;105\n3;5;220;22,0\n",
    "1 2.5 210.4 21.3 good|2 5 1050 105 good|3 5 220 22 good",
  ],
  [
    "parenthesised flush",
    "Tray,ml,Fresh g\n1,5,150 (2nd: 60)\n2,5,205\n3,10,220\n",
    "1 5 -/210 - asked/good|2 5 205 - good|3 10 220 - good",
  ],
  [
    "per bag dose",
    "Tray,LC,Fresh g\n1,5 cc/bag,200\n2,10cc per bag,210\n3,2x5ml,215\n",
    "1 5 200 - good|2 10 210 - good|3 10/- 215 - good",
  ],

  [
    "tossed de words",
    "Schale;Dosis ml;Frisch g;Ergebnis\n1;5;210;gut\n2;5;;Trichoderma\n3;10;;verschimmelt\n4;10;190;in Ordnung\n5;10;;wächst noch\n",
    "1 5 210 - good|2 5 - - contaminated|3 10 - - contaminated|4 10 190 - good|5 10 - - growing",
  ],
  [
    "outcome fr",
    "Plateau;LC ml;Frais g;Résultat\n1;5;210;bon\n2;5;;contaminé\n3;10;;raté\n4;10;190;ok\n5;10;;en cours\n",
    "1 5 210 - good|2 5 - - contaminated|3 10 - - failed|4 10 190 - good|5 10 - - growing",
  ],
  [
    "outcome nl",
    "Bak;LC ml;Vers g;Resultaat\n1;5;210;goed\n2;5;;besmet\n3;10;;mislukt\n4;10;190;prima\n5;10;;groeit nog\n",
    "1 5 210 - good|2 5 - - contaminated|3 10 - - failed|4 10 190 - good/asked|5 10 - - growing",
  ],
  [
    "outcome it",
    "Vaschetta;CL ml;Fresco g;Esito\n1;5;210;buono\n2;5;;contaminata\n3;10;;fallita\n4;10;190;ok\n5;10;;in crescita\n",
    "1 5 210 - good|2 5 - - contaminated|3 10 - - failed|4 10 190 - good|5 10 - - growing",
  ],
  [
    "outcome pt",
    "Bandeja;CL ml;Fresco g;Resultado\n1;5;210;boa\n2;5;;contaminada\n3;10;;falhou\n4;10;190;ok\n5;10;;a crescer\n",
    "1 5 210 - good|2 5 - - contaminated|3 10 - - failed|4 10 190 - good|5 10 - - growing",
  ],
  [
    "outcome pl",
    "Taca;Dawka ml;Świeże g;Wynik\n1;5;210;dobra\n2;5;;skażona\n3;10;;nieudana\n4;10;190;ok\n5;10;;rośnie\n",
    "1 5 210 - good|2 5 - - contaminated|3 10 - - failed|4 10 190 - good|5 10 - - growing",
  ],
  [
    "outcome es",
    "Bolsa;Dosis ml;Fresco g;Resultado\n1;5;210;buena\n2;5;;contaminada\n3;10;;fallida\n4;10;190;bien\n5;10;;creciendo\n",
    "1 5 210 - good|2 5 - - contaminated|3 10 - - failed|4 10 190 - good|5 10 - - growing",
  ],
  [
    "neg mixed de",
    "Schale;Dosis ml;Frisch g;Notiz\n1;5;210;kein Schimmel\n2;5;;nicht kontaminiert, nur langsam\n3;10;;schimmelfrei\n4;10;;kein Trich mehr\n5;10;;Kontamination!\n",
    "1 5 210 - good|2 5 - - growing/asked|3 10 - - growing/asked|4 10 - - growing/asked|5 10 - - contaminated",
  ],
  [
    "neg en scope",
    "Tray,ml,Fresh g,Remarks\n1,5,210,no mold but small\n2,5,,not moldy - stalled\n3,10,,never fruited\n4,10,,mold? no just metabolites\n5,10,,wet rot\n6,5,,dried out\n",
    "1 5 210 - good|2 5 - - growing/asked/failed|3 10 - - failed/asked|4 10 - - growing/asked|5 10 - - contaminated/failed/asked|6 5 - - failed/discarded/asked",
  ],
  [
    "weight word in weight cell",
    "Tray,ml,Fresh g,Dry g\n1,5,210,21\n2,5,contam,\n3,10,0,0\n4,10,lost,\n5,10,trich,-\n",
    "1 5 210 21 good|2 5 - - contaminated|3 10 0 0 failed|4 10 - - discarded/asked/failed|5 10 - - contaminated",
  ],
  [
    "mean rows in french",
    "Barquette;ml;Frais g;Sec g\nA1;5;200;20\nA2;5;210;21\nA3;10;250;25\nMoyenne;;220;22\nÉcart-type;;26,5;2,6\n",
    "A1 5 200 20 good|A2 5 210 21 good|A3 10 250 25 good",
  ],
  [
    "totale it with euro",
    "Vaschetta;ml;Fresco g\nA1;5;200\nA2;5;210\nA3;10;250\nTOTALE;20;660\n",
    "A1 5 200 - good|A2 5 210 - good|A3 10 250 - good",
  ],
  [
    "n row",
    "Tray,ml,Fresh g\nA1,5,200\nA2,5,210\nA3,10,250\nTotal,20,660\nn,3,3\navg,6.67,220\n",
    "A1 5 200 - good|A2 5 210 - good|A3 10 250 - good",
  ],
  [
    "total left blank name numeric trays",
    "Tray,ml,Fresh g\n1,5,200\n2,5,210\n3,10,250\n3,,660\n",
    "1 5 200 - good|2 5 210 - good|3 10 - - asked",
  ],
  [
    "grand total text in dose col",
    "Tray,ml,Fresh g,Dry g\n1,5,200,20\n2,5,210,21\n3,10,250,25\n,TOTAL,660,66\n",
    "1 5 200 20 good|2 5 210 21 good|3 10 250 25 good",
  ],
  [
    "control row",
    "Tray,ml,Fresh g\n1,5,200\n2,5,210\ncontrol,0,150\n3,10,250\n",
    "1 5 200 - good|2 5 210 - good|control 0 150 - good|3 10 250 - good",
  ],
  [
    "pool each",
    "Tray,ml,Fresh g\nT1-T3,5,210 each\nT4-T6,10,230 each\n",
    "T1-T3 5 630 - good x3|T4-T6 10 690 - good x3",
  ],
  ["pool es", "Bandejas;ml;Fresco g\n1 a 4;5;810\n5 a 8;10;900\n", "1 a 4 5 810 - good x4|5 a 8 10 900 - good x4"],
  ["pool words", "Tray,ml,Fresh g\n4 trays,5,810\n4 trays,10,900\n", "? 5 810 - good x4|? 10 900 - good x4"],
  [
    "jar and tray",
    "Jar,Tray,ml,Fresh g\n1,1,5,200\n1,2,5,210\n2,1,10,250\n2,2,10,260\n",
    "1 (Culture jar 1) 5 200 - good|2 (Culture jar 1) 5 210 - good|1 (Culture jar 2) 10 250 - good|2 (Culture jar 2) 10 260 - good",
  ],
  [
    "flush words",
    "Tray,ml,Pick,Fresh g\nT1,5,1st,150\nT1,5,2nd,60\nT2,10,first,170\nT2,10,second,70\n",
    "T1 5 210 - good|T2 10 240 - good",
  ],
  [
    "flush columns",
    "Tray,ml,1st flush g,2nd flush g,3rd flush g\nT1,5,150,60,10\nT2,10,170,70,\nT3,10,160,-,-\n",
    "T1 5 220 - good|T2 10 240/- - good|T3 10 160/- - good",
  ],
  [
    "flush total",
    "Tray,ml,Flush 1,Flush 2,Total g\nT1,5,150,60,210\nT2,10,170,70,240\n",
    "T1 5 210 - good|T2 10 240 - good",
  ],
  [
    "lb oz",
    "Tray,ml,Fresh lb,Fresh oz\nT1,5,0,7.5\nT2,10,1,0\nT3,5,0,8\n",
    "T1 5 212.6 - good|T2 10 453.6 - good|T3 5 226.8 - good",
  ],
  ["unit col", "Tray,Dose,Unit,Fresh,Unit\nT1,5,ml,200,g\nT2,10,ml,0.22,kg\n", "T1 5 200 - good|T2 10 220 - good"],
  [
    "eu thousand",
    "Schale;ml;Frisch g\nA;5;1.050\nB;10;1.100,5\nC;5;990,0\n",
    "A 5 1050 - good|B 10 1100.5 - good|C 5 990 - good",
  ],
  [
    "ambig thousand",
    'Tray,ml,Fresh g\nA,5,"1,050"\nB,10,"1,100"\n',
    "A 5 1050/- - good/asked|B 10 1100/- - good/asked",
  ],
  [
    "grams under ounces, dry within reach",
    "Tray,ml,Fresh oz,Dry oz\n1,5,205,20\n2,5,211,20\n3,10,240,25\n4,10,248,25\n",
    "1 5 - - good/asked|2 5 - - good/asked|3 10 - - good/asked|4 10 - - good/asked",
  ],
  [
    "the weight of the tray itself under a harvest's name",
    "Tray,ml,Weight at harvest g,Dried g\n1,5,1200,20\n2,5,1210,21\n3,10,1190,20\n4,10,1240,25\n",
    "1 5 - - good/asked|2 5 - - good/asked|3 10 - - good/asked|4 10 - - good/asked",
  ],
  [
    "an amount per kilogram is no dose",
    "Tray,LC (mL per kg),Fresh g\n1,10,205\n2,10,211\n3,20,240\n4,20,248\n",
    "1 - 205 - good|2 - 211 - good|3 - 240 - good|4 - 248 - good",
  ],
  [
    "codes under a name nobody knows",
    "Whatsit,ml,Fresh g\nK1,5,205\nK2,5,211\nK3,10,240\nK4,10,248\n",
    "K1 5 205 - good|K2 5 211 - good|K3 10 240 - good|K4 10 248 - good",
  ],
  [
    "counts times an amount",
    "Tray,LC,Fresh g\n1,2 x 5 ml,205\n2,2x5ml,211\n3,4*5 ml,240\n4,20ml,248\n",
    "1 10 205 - good|2 10 211 - good|3 20 240 - good|4 20 248 - good",
  ],
  [
    "ticked boxes",
    "Tray,ml,Contaminated,Fresh g\n1,5,☐,205\n2,5,☑,\n3,10,☐,240\n",
    "1 5 205 - good|2 5 - - contaminated|3 10 240 - good",
  ],
  [
    "dekagrams",
    "Taca;ml;Świeże;Sucha masa\n1;10;20,5 dag;2 dag\n2;20;24 dag;2,5 dag\n",
    "1 10 205 20 good|2 20 240 25 good",
  ],
  [
    "two columns of outcomes, none of them read yet",
    "Tray,ml,Status,Contaminated?,Fresh g\n1,10,harvested,no,205\n2,10,harvested,yes,211\n3,20,discarded,yes,\n",
    "1 10 205 - asked|2 10 211 - asked|3 20 - - asked",
  ],
  [
    "slip dry",
    "Tray,ml,Fresh g,Dry g\n1,5,200,20\n2,5,210,2.1\n3,5,205,21\n4,5,190,19\n5,10,220,220\n6,10,230,23\n7,10,240,25\n8,10,250,25\n",
    "1 5 200 20 good|2 5 210 2.1/- good|3 5 205 21 good|4 5 190 19 good|5 10 220/- -/220 good/asked|6 10 230 23 good|7 10 240 25 good|8 10 250 25 good",
  ],
  [
    "swapped fresh dry",
    "Tray,ml,Dry g,Fresh g\n1,5,200,20\n2,5,210,21\n3,10,220,22\n",
    "1 5 - - ?|2 5 - - ?|3 10 - - ?",
  ],
  [
    "date eu",
    "Taca;ml;Zaszczepiono;Zebrano;Świeże g\n1;5;14.01.2026;28.02.2026;210\n2;10;3.2.26;14.3.26;220\n",
    "1 5 210 - good i2026-01-14 h2026-02-28|2 10 220 - good i2026-02-03 h2026-03-14",
  ],
  [
    "date ambiguous",
    "Tray,ml,Inoculated,Harvested,Fresh g\n1,5,3/4/26,4/5/26,210\n2,10,3/4/26,4/6/26,220\n",
    "1 5 210 - good iNONE hNONE|2 10 220 - good iNONE hNONE",
  ],
  [
    "date yymmdd",
    "Tray,ml,Inoculated,Harvested,Fresh g\n1,5,20260114,20260228,210\n2,10,20260115,20260301,220\n",
    "1 5 210 - good i2026-01-14 h2026-02-28|2 10 220 - good i2026-01-15 h2026-03-01",
  ],
  [
    "date with weekday",
    'Tray,ml,Inoculated,Harvested,Fresh g\n1,5,Wed 14 Jan 2026,Sat Feb 28 2026,210\n2,10,"Thu, Jan 15, 2026",1 Mar 2026,220\n',
    "1 5 210 - good i2026-01-14 h2026-02-28|2 10 220 - good i2026-01-15 h2026-03-01",
  ],
  [
    "yearless some over new year",
    "Tray,ml,Inoculated,Harvested,Fresh g\n1,5,2025-12-20,2026-02-10,210\n2,10,Dec 21,Feb 11,220\n3,10,Jan 2,Feb 20,220\n",
    "1 5 210 - good i2025-12-20 h2026-02-10|2 10 220 - good i2025-12-21 h2026-02-11|3 10 220 - good i2026-01-02 h2026-02-20",
  ],
  [
    "discard date in harvest col",
    "Tray,ml,Outcome,Harvested,Fresh g\n1,5,good,2026-02-10,210\n2,10,contam,2026-01-20,\n",
    "1 5 210 - good h2026-02-10|2 10 - - contaminated",
  ],
  [
    "plus sign sums minus tare",
    "Tray,ml,Fresh g\n1,5,250-40\n2,5,210\n3,10,260 - 40 tray\n",
    "1 5 210/- - good/asked|2 5 210 - good|3 10 220/- - good/asked",
  ],
  [
    "half ml",
    "Tray,LC,Fresh g\n1,½ cc,200\n2,1/2 ml,210\n3,2½ ml,215\n4,2 1/2 ml,218\n",
    "1 0.5 200 - good|2 0.5 210 - good|3 2.5 215 - good|4 2.5 218 - good",
  ],
  [
    "each bag es",
    "Bolsa;Dosis;Peso fresco\n1;10 ml por bolsa;0,21 kg\n2;5 ml/bolsa;205 g\n",
    "1 10 210 - good|2 5 205 - good",
  ],
  [
    "approx & gt",
    "Tray,ml,Fresh g\n1,5,~200\n2,5,>200\n3,10,200ish\n4,10,200-210\n5,10,ca. 220\n",
    "1 5 200 - good|2 5 - - good|3 10 200 - good|4 10 -/205 - good|5 10 220 - good",
  ],
  [
    "note in weight",
    'Tray,ml,Fresh g\n1,5,200 (small)\n2,5,210 a bit wet\n3,10,"220, good"\n4,10,230*\n',
    "1 5 200/- - good/asked|2 5 210/- - good/asked|3 10 220/- - good/asked|4 10 230/- - good/asked",
  ],
  [
    "ditto",
    'Tray,Batch,ml,Fresh g\n1,A,5,200\n2,",,","""",210\n3,B,10,220\n4,ditto,ditto,230\n',
    "1 5 200 - good|2 5/- 210 - good|3 10 220 - good|4 10 230 - good",
  ],
  [
    "section titles",
    "Tray,ml,Fresh g\nBatch A (cooked 3/14/26),,\n1,5,200\n2,10,210\nBatch B (cooked 3/21/26),,\n1,5,220\n2,10,230\n",
    "1 (A) 5 200 - good|2 (A) 10 210 - good|1 (B) 5 220 - good|2 (B) 10 230 - good",
  ],
  [
    "fill down dose",
    "Dose ml,Tray,Fresh g\n5,1,200\n,2,210\n,3,190\n10,4,220\n,5,230\n,6,240\n",
    "1 5 200 - good|2 5 210 - good|3 5 190 - good|4 10 220 - good|5 10 230 - good|6 10 240 - good",
  ],
  [
    "zero weight outcome good",
    "Tray,ml,Outcome,Fresh g\n1,5,good,0\n2,5,good,210\n3,10,failed,0\n",
    "1 5 0/- - good/asked|2 5 210 - good|3 10 0 - failed",
  ],
  [
    "lost with weight",
    "Tray,ml,Outcome,Fresh g\n1,5,contam,150\n2,5,good,210\n",
    "1 5 - - contaminated/asked|2 5 210 - good",
  ],
  ["fl oz dose", "Tray,LC (fl oz),Fresh (oz)\n1,0.5,7.5\n2,1,8\n", "1 14.8 212.6 - good|2 29.6 226.8 - good"],
  [
    "tsp",
    "Tray,LC,Fresh g\n1,1 tsp,200\n2,2 tsp,210\n3,1 tbsp,220\n",
    "1 4.9 200 - good|2 9.9 210 - good|3 14.8 220 - good",
  ],
  ["syringes", "Tray,LC,Fresh g\n1,1 syringe,200\n2,2 syringes,210\n", "1 - 200 - good|2 - 210 - good"],
  ["spawn pct", "Bag,Spawn %,Fresh g\n1,5%,200\n2,10%,220\n3,5%,210\n", "1 - 200 - good|2 - 220 - good|3 - 210 - good"],

  [
    "losses under a name that says nothing",
    "Tray,ml,Hmm,Fresh g\n1,5,good,200\n2,5,contam,\n3,10,good,220\n4,10,trich,\n",
    "1 5 200 - good|2 5 - - contaminated|3 10 220 - good|4 10 - - contaminated",
  ],
  [
    "remarks under a name that says nothing",
    "Tray,ml,Hmm,Fresh g\n1,5,slow,200\n2,5,trich on day 9,\n3,10,nice caps,220\n4,10,,\n",
    "1 5 200 - good|2 5 - - asked|3 10 220 - good|4 10 - - asked",
  ],
  [
    "colours are no outcomes",
    "Tray,ml,Lid,Fresh g\n1,5,green,200\n2,5,blue,\n3,10,green,220\n",
    "1 5 200 - good|2 5 - - growing|3 10 220 - good",
  ],
  [
    "a count that cannot be read",
    "Tray,n trays,ml,Fresh g\nA,4,5,800\nB,four or five,10,900\nC,4,10,820\n",
    "A 5 800 - good x4|B 10 - - asked|C 10 820 - good x4",
  ],

  [
    "loss in second note col",
    "Tray,ml,Fresh g,Notes,Comments\n1,5,200,,\n2,5,,small,went green - binned\n3,10,220,,\n",
    "1 5 200 - good|2 5 - - contaminated/discarded|3 10 220 - good",
  ],
  [
    "contam date in note",
    "Tray,ml,Inoculated,Fresh g,Notes\n1,5,2026-01-03,200,\n2,5,2026-01-03,,contam 1/20\n3,10,2026-01-04,,cobweb day 12 tossed\n",
    "1 5 200 - good|2 5 - - contaminated|3 10 - - contaminated/discarded",
  ],
  [
    "loss words capital",
    "TRAY,ML,WET,DRY,COMMENT\nA,5,200,20,\nB,5,,,GREEN MOULD\nC,10,,,CONTAMINATED!!\n",
    "A 5 200 20 good|B 5 - - contaminated|C 10 - - contaminated",
  ],
  [
    "gave to friend",
    "Tray,ml,Fresh g,Notes\n1,5,200,\n2,5,,gave to neighbour\n3,10,,eaten by mice\n",
    "1 5 200 - good|2 5 - - growing/asked/good|3 10 - - growing/asked/failed/discarded",
  ],
  [
    "contaminated col x",
    "Tray,ml,Contaminated,Fresh g\n1,5,,200\n2,5,x,\n3,10,,220\n4,10,X,\n",
    "1 5 200 - good|2 5 - - contaminated|3 10 220 - good|4 10 - - contaminated",
  ],
  [
    "contaminated col 0/1",
    "Tray,ml,Contam,Fresh g\n1,5,0,200\n2,5,1,\n3,10,0,220\n4,10,1,\n",
    "1 5 200 - good|2 5 - - contaminated|3 10 220 - good|4 10 - - contaminated",
  ],
  [
    "contaminated col TRUE",
    "Tray,ml,contam?,Fresh g\n1,5,FALSE,200\n2,5,TRUE,\n3,10,FALSE,220\n",
    "1 5 200 - good|2 5 - - contaminated|3 10 220 - good",
  ],
  [
    "success col",
    "Tray,ml,Success?,Fresh g\n1,5,y,200\n2,5,n,\n3,10,yes,220\n4,10,no,\n",
    "1 5 200 - good|2 5 - - failed/asked|3 10 220 - good|4 10 - - failed/asked",
  ],
  [
    "kontam de ja nein",
    "Schale;ml;Kontamination;Frisch g\n1;5;nein;200\n2;5;ja;\n3;10;Nein;220\n",
    "1 5 200 - good|2 5 - - contaminated|3 10 220 - good",
  ],
  [
    "lost yes",
    "Tray,ml,Lost?,Fresh g\n1,5,no,200\n2,5,yes,\n3,10,,220\n",
    "1 5 200 - good|2 5 - - discarded/failed/asked/contaminated|3 10 220 - good",
  ],
  [
    "two outcomes rows",
    "Tray,ml,Outcome,Fresh g\n1,5,good then contam,200\n2,5,contam?,\n3,10,ok,220\n",
    "1 5 200/- - good/asked|2 5 - - contaminated/asked|3 10 220 - good",
  ],
  [
    "subtotals blank name per batch",
    "Batch,Tray,ml,Fresh g,Dry g\nA,1,5,200,20\nA,2,5,210,21\n,,,410,41\nB,3,10,240,24\nB,4,10,250,25\n,,,490,49\n,,,900,90\n",
    "1 5 200 20 good|2 5 210 21 good|3 10 240 24 good|4 10 250 25 good",
  ],
  [
    "totals on top",
    "Tray,ml,Fresh g\nTotal,,630\n1,5,200\n2,5,210\n3,10,220\n",
    "1 5 200 - good|2 5 210 - good|3 10 220 - good",
  ],
  [
    "percent row",
    "Tray,ml,Fresh g,BE\n1,5,200,40%\n2,5,210,42%\n3,10,220,44%\nMean,,210,42%\n",
    "1 5 200 - good|2 5 210 - good|3 10 220 - good",
  ],
  [
    "excel error total",
    "Tray,ml,Fresh g\n1,5,200\n2,5,210\n3,10,220\nTotal,,#REF!\n",
    "1 5 200 - good|2 5 210 - good|3 10 220 - good",
  ],
  [
    "totals nl pt",
    "Bak;ml;Vers g\n1;5;200\n2;5;210\n3;10;220\nTotaal;;630\nGemiddeld;;210\n",
    "1 5 200 - good|2 5 210 - good|3 10 220 - good",
  ],
  [
    "tray total col",
    "Tray,ml,Fresh g,Total\n1,5,200,200\n2,5,210,210\n3,10,220,220\n",
    "1 5 200 - good|2 5 210 - good|3 10 220 - good",
  ],
  ["pool en dash oz", "Bags,LC cc,Yield oz\n1–3,5,22\n4–6,10,25\n", "1–3 5 623.7 - good x3|4–6 10 708.7 - good x3"],
  [
    "pool list semicolon",
    'Schale;ml;Frisch g\n"1, 2";5;400\n3 und 4;10;450\n5;5;205\n',
    "1, 2 5 400 - good x2|3 und 4 10 450 - good x2|5 5 205 - good",
  ],
  [
    "pool x3",
    "Tray,ml,Fresh g\nA x3,5,600\nB x3,10,700\nC,5,210\n",
    "A x3 5 600 - good x3|B x3 10 700 - good x3|C 5 210 - good",
  ],
  [
    "trays col with names col",
    "Batch,# of trays,ml,Fresh g\nA,3,5,600\nB,3,10,690\n",
    "row 2 of harvests/one.csv 5 600 - good x3|row 3 of harvests/one.csv 10 690 - good x3",
  ],
  [
    "same name different dose same batch",
    "Batch,Tray,ml,Fresh g\nA,1,5,200\nA,1,10,230\nA,2,5,210\n",
    "? ? ? - asked|2 5 210 - good",
  ],
  [
    "files with own batch names",
    { "batchA.csv": "Tray,ml,Fresh g\n1,5,200\n2,10,210\n", "batchB.csv": "Tray,ml,Fresh g\n1,5,220\n2,10,230\n" },
    "1 (A) 5 200 - good bA|2 (A) 10 210 - good bA|1 (B) 5 220 - good bB|2 (B) 10 230 - good bB",
  ],
  [
    "notes continuation rows",
    "Tray,ml,Fresh g,Note\n1,5,200,slow start\n,,,then fine\n2,10,220,\n",
    "1 5 200 - good|2 10 220 - good",
  ],
  [
    "fresh below dry col oz/g mix",
    "Tray,ml,Fresh oz,Dry g\n1,5,7.4,21\n2,10,7.9,22\n",
    "1 5 209.8 21 good|2 10 224 22 good",
  ],
  ["huge tray kg", "Tray,ml,Fresh kg\n1,5,200\n2,10,210\n", "1 5 - - ?|2 10 - - ?"],
  [
    "weight 1st in g then unit",
    "Tray,ml,Fresh\n1,5,200g\n2,10,7 oz\n3,5,210\n",
    "1 5 200 - good|2 10 198.4 - good|3 5 210/- - good/asked",
  ],
  ["negative", "Tray,ml,Fresh g\n1,5,-200\n2,10,210\n", "1 5 - - asked|2 10 210 - good"],
  [
    "date in weight",
    "Tray,ml,Fresh g\n1,5,2-Mar\n2,10,210\n3,5,Jan-05\n",
    "1 5 - - asked|2 10 210 - good|3 5 - - asked",
  ],
  [
    "harvest before inoc",
    "Tray,ml,Inoculated,Harvested,Fresh g\n1,5,2026-03-01,2026-02-01,200\n2,10,2026-01-01,2026-02-10,210\n",
    "1 5 200 - good|2 10 210 - good",
  ],
  [
    "short years",
    "Schale;ml;Beimpft;Ernte am;Frisch g\n1;5;14.1.26;28.2.26;200\n2;10;14.1.;1.3.;210\n",
    "1 5 200 - good i2026-01-14 h2026-02-28|2 10 210 - good i2026-01-14 h2026-03-01",
  ],
  [
    "months fr it",
    "Barquette;LC ml;Inoculé le;Récolté le;Frais g\n1;5;14 janv. 2026;28 févr. 2026;200\n2;10;15 janvier 2026;1er mars 2026;210\n",
    "1 5 200 - good i2026-01-14 h2026-02-28|2 10 210 - good i2026-01-15 h2026-03-01",
  ],
  [
    "months pl",
    "Taca;Dawka ml;Zaszczepione;Zebrane;Świeże g\n1;5;14 stycznia 2026;28 lut 2026;200\n2;10;15 sty 2026;1 marca 2026;210\n",
    "1 5 200 - good i2026-01-14 h2026-02-28|2 10 210 - good i2026-01-15 h2026-03-01",
  ],
  [
    "days since",
    "Tray,ml,Days to colonise,Fresh g\n1,5,14,200\n2,10,2 wks,210\n3,10,12-13,220\n",
    "1 5 200 - good|2 10 210 - good|3 10 220 - good",
  ],
  [
    "date time",
    "Tray,ml,Inoculated,Fresh g\n1,5,2026-01-14 09:30,200\n2,10,1/15/2026 14:00,210\n",
    "1 5 200 - good i2026-01-14|2 10 210 - good i2026-01-15",
  ],
  [
    "month only",
    "Tray,ml,Inoculated,Fresh g\n1,5,Jan 2026,200\n2,10,Feb 2026,210\n",
    "1 5 200 - good iNONE|2 10 210 - good iNONE",
  ],
  [
    "times",
    "Tray,ml,Fresh g\n1,5,2 x 105\n2,5,2*105\n3,10,210\n",
    "1 5 210/- - good/asked|2 5 210/- - good/asked|3 10 210 - good",
  ],
  [
    "mix of frac",
    "Tray,LC ml,Fresh oz\n1,5,7 1/2\n2,5,7½\n3,10,8 3/4 oz\n4,10,7.5oz\n",
    "1 5 212.6 - good|2 5 212.6 - good|3 10 248.1 - good|4 10 212.6 - good",
  ],
  [
    "lb oz in cell",
    'Tray,ml,Fresh\n1,5,1 lb 2 oz\n2,5,1lb\n3,10,"1lb, 4oz"\n4,10,18oz\n',
    "1 5 510.3 - good|2 5 453.6 - good|3 10 567 - good|4 10 510.3 - good",
  ],
  ["equals text", "Tray,ml,Fresh g\n1,5,=SUM(B2:B3)\n2,10,210\n", "1 5 - - asked|2 10 210 - good"],
  [
    "plus flush in cell",
    "Tray,ml,Fresh g\n1,5,150+60+20\n2,10,180 / 70\n3,10,200; 60\n",
    "1 5 230 - good|2 10 - - asked|3 10 - - asked",
  ],
  [
    "tare col",
    "Tray,ml,Gross g,Tare g\n1,5,250,40\n2,10,260,40\n",
    "1 5 210/- - good/asked/growing|2 10 220/- - good/asked/growing",
  ],
  [
    "missing words",
    "Tray,ml,Fresh g,Dry g\n1,5,200,n/a\n2,5,not weighed,21\n3,10,220,tbd\n4,10,?,22\n",
    "1 5 200 - good|2 5 - 21 good|3 10 220 - good|4 10 - 22 good",
  ],
  [
    "comma header units de",
    "Schale;Dosis (ml);Frischgewicht (g);Trockengewicht (g)\n1;2,5;210,5;21,3\n2;5;1.050,5;105,2\n",
    "1 2.5 210.5 21.3 good|2 5 1050.5 105.2 good",
  ],
  [
    "dose with strain in cell",
    "Tray,LC,Fresh g\n1,5ml Blue,180\n2,10ml Pink,200\n",
    "1 -/5 180 - good|2 -/10 200 - good",
  ],
  [
    "dose ranges",
    "Tray,LC ml,Fresh g\n1,5-6,180\n2,10,200\n3,~10,205\n",
    "1 - 180 - good|2 10 200 - good|3 10 205 - good",
  ],
];

test.each(typed)("%s is read right or asked about", async (_, sheets, truth) => {
  const book = await bookOf(typeof sheets === "string" ? { "harvests/one.csv": sheets } : sheets);
  expect(misread(book, truth)).toEqual({ missing: [], left: [] });
  expect(book.account?.lost).toBe(0);
});

import { expect, test } from "vitest";
import { cleanedHarvestCsv } from "../../src/cleaning/cleaned-harvest-csv.ts";
import { allFacts, bookOf, harvestOf } from "./book-of.ts";
import { misread, type Typed } from "./tray-lines.ts";

/** Losses and no losses as growers tell them in notes and outcome columns: slang, abbreviations, doubts, plans, denials and how far they reach. Common practice, no source. */
const typed: Typed[] = [
  [
    "losses listed by number under the rows, which no legend is",
    "Tray,LC ml,Fresh g\n1,5,200\n2,5,210\n3,10,\nlost: 3,,\n",
    "1 5 200 - good|2 5 210 - good|3 10 - - asked",
  ],
  [
    "ticks of the good trays, and nothing beside the others",
    "Tray,LC ml,Good?,Fresh g\nA1,5,✓,201\nA2,5,✓,210\nA3,10,,\nA4,10,✓,236\n",
    "A1 5 201 - good|A2 5 210 - good|A3 10 - - asked|A4 10 236 - good",
  ],
  [
    "ticks of the good trays while the next cook grows, and a no that makes a blank one growing",
    {
      "a.csv": "Tray,Batch,LC ml,OK,Fresh g\nA1,1,5,x,201\nA2,1,5,x,210\nA3,2,10,,\nA4,2,10,,\n",
      "b.csv": "Tray,Batch,LC ml,OK,Fresh g\nB1,3,5,yes,201\nB2,3,5,no,\nB3,3,10,,\nB4,3,10,yes,220\n",
    },
    "A1 5 201 - good|A2 5 210 - good|A3 10 - - growing|A4 10 - - growing|B1 5 201 - good|B2 5 - - failed|B3 10 - - growing|B4 10 220 - good",
  ],
  [
    "en slang",
    'tray,LC ml,fresh g,notes\n1,5,212,\n2,5,,went green - pitched it\n3,5,,"sour smell, dumped"\n4,10,240,fat pins\n5,10,,RIP (trich)\n6,10,,cobweb all over :( chucked\n7,15,,stalled - culled\n8,15,251,\n',
    "1 5 212 - good|2 5 - - lost|3 5 - - lost|4 10 240 - good|5 10 - - lost|6 10 - - lost|7 15 - - lost|8 15 251 - good",
  ],
  [
    "en typos",
    "Tray,Inoc (mL),Wet wt (g),Comments\nA1,5,198,\nA2,5,,contaminted\nA3,5,,mouldey corner to corner. thrown\nA4,10,,trichodermia!! out\nA5,10,233,\nA6,10,,contam'd d11\nA7,10,,contamed\n",
    "A1 5 198 - good|A2 5 - - lost|A3 5 - - lost|A4 10 - - lost|A5 10 233 - good|A6 10 - - lost|A7 10 - - lost",
  ],
  [
    "en two notes columns",
    "Tray,Dose ml,Note spawn run,Note fruiting,Fresh g\nT1,5,fast,canopy ok,210\nT2,5,green patch d9,tossed,\nT3,10,ok,,233\nT4,10,black mold,,\nT5,10,fine,fell on the floor - binned,\n",
    "T1 5 210 - good|T2 5 - - lost|T3 10 233 - good|T4 10 - - lost|T5 10 - - lost",
  ],
  [
    "en abbreviations",
    "Tray #;cc;Fresh;Obs\n1;5;205 g;\n2;5;;c\n3;5;;Contam.\n4;10;;TC (trich)\n5;10;;bact\n6;10;230 g;ok\n",
    "1 5 205 - good|2 5 - - lost/asked|3 5 - - lost|4 10 - - lost|5 10 - - lost|6 10 230 - good",
  ],
  [
    "en never colonised",
    "tray,dose ml,fresh g,dry g,remarks\n1,5,201,20,\n2,5,,,never took off - scrapped day 40\n3,10,,,no colonization at all. dead\n4,10,238,24,\n5,10,,,dried out and died\n6,10,,,DOA\n",
    "1 5 201 20 good|2 5 - - lost|3 10 - - lost|4 10 238 24 good|5 10 - - lost|6 10 - - lost",
  ],
  [
    "en loss written in weight cell",
    "tray,dose ml,fresh g\n1,5,210\n2,5,tossed\n3,5,contam d12\n4,10,green\n5,10,242\n6,10,mold :(\n",
    "1 5 210 - good|2 5 - - lost|3 5 - - lost|4 10 - - lost|5 10 242 - good|6 10 - - lost",
  ],
  [
    "en loss in date cell",
    "tray,dose ml,inoculated,harvested,fresh g\n1,5,2026-02-01,2026-03-14,210\n2,5,2026-02-01,binned 2/20,\n3,10,2026-02-01,contam,\n4,10,2026-02-01,2026-03-15,240\n",
    "1 5 210 - good i2026-02-01 h2026-03-14|2 5 - - lost|3 10 - - lost|4 10 240 - good",
  ],
  [
    "de slang",
    "Schale;FK ml;Frisch g;Bemerkung\n1;5;212;\n2;5;;grün geworden, weg\n3;5;;in die Tonne\n4;10;;vergammelt\n5;10;244;schöne Pins\n6;10;;umgekippt - Bakterien\n7;10;;auf den Kompost\n8;10;;nix geworden\n",
    "1 5 212 - good|2 5 - - lost|3 5 - - lost|4 10 - - lost|5 10 244 - good|6 10 - - lost|7 10 - - lost|8 10 - - lost",
  ],
  [
    "de inflections",
    "Schale;Dosis ml;Frischgewicht (g);Notiz\nS1;5;201;\nS2;5;;verschimmelte Ecke, dann ganze Schale\nS3;5;;stark kontaminiert (Trichoderma)\nS4;10;;Schimmelbefall Tag 14\nS5;10;233,5;\nS6;10;;eingegangen\nS7;10;;abgestorben\n",
    "S1 5 201 - good|S2 5 - - lost|S3 5 - - lost|S4 10 - - lost|S5 10 233.5 - good|S6 10 - - lost|S7 10 - - lost",
  ],
  [
    "fr slang",
    "bac;dose ml;poids frais g;remarques\n1;5;212;\n2;5;;tout vert, poubelle\n3;5;;moisi\n4;10;;foutu (trichoderma)\n5;10;239;belle pousse\n6;10;;n'a pas pris, jeté au compost\n7;10;;pourri - bactéries\n",
    "1 5 212 - good|2 5 - - lost|3 5 - - lost|4 10 - - lost|5 10 239 - good|6 10 - - lost|7 10 - - lost",
  ],
  [
    "es slang",
    "bandeja;dosis ml;peso fresco g;notas\n1;5;212;\n2;5;;se puso verde, a la basura\n3;5;;se contaminó\n4;10;;podrida\n5;10;239;bien\n6;10;;no prendió\n7;10;;tiré todo, trichoderma\n",
    "1 5 212 - good|2 5 - - lost|3 5 - - lost|4 10 - - lost|5 10 239 - good|6 10 - - lost|7 10 - - lost",
  ],
  [
    "it slang",
    "vaschetta;dose ml;peso fresco g;note\n1;5;212;\n2;5;;ammuffita\n3;5;;andata a male\n4;10;;marcia - buttata via\n5;10;239;bella\n6;10;;contaminata (verde)\n7;10;;mai partita\n",
    "1 5 212 - good|2 5 - - lost|3 5 - - lost|4 10 - - lost|5 10 239 - good|6 10 - - lost|7 10 - - lost",
  ],
  [
    "nl slang",
    "bak;dosis ml;vers g;opmerkingen\n1;5;212;\n2;5;;helemaal groen, weggegooid\n3;5;;in de kliko\n4;10;;verrot\n5;10;239;mooi\n6;10;;beschimmeld\n7;10;;mislukt\n",
    "1 5 212 - good|2 5 - - lost|3 5 - - lost|4 10 - - lost|5 10 239 - good|6 10 - - lost|7 10 - - lost",
  ],
  [
    "pl slang",
    "tacka;dawka ml;świeża masa g;uwagi\n1;5;212;\n2;5;;zielona - do kosza\n3;5;;spleśniała\n4;10;;zgniła\n5;10;239;ładna\n6;10;;zakażenie trichoderma\n7;10;;nie ruszyła, wyrzucona\n",
    "1 5 212 - good|2 5 - - lost|3 5 - - lost|4 10 - - lost|5 10 239 - good|6 10 - - lost|7 10 - - lost",
  ],
  [
    "pt slang",
    "bandeja;dose ml;peso fresco g;observações\n1;5;212;\n2;5;;mofou\n3;5;;contaminou tudo\n4;10;;foi pro lixo\n5;10;239;boa\n6;10;;apodreceu\n7;10;;não pegou, descartada\n",
    "1 5 212 - good|2 5 - - lost|3 5 - - lost|4 10 - - lost|5 10 239 - good|6 10 - - lost|7 10 - - lost",
  ],
  [
    "en yes/no lost col",
    "tray,LC ml,fresh g,Lost?\n1,5,210,\n2,5,,x\n3,10,233,\n4,10,,x\n",
    "1 5 210 - good|2 5 - - lost|3 10 233 - good|4 10 - - lost",
  ],
  [
    "en reason column",
    "tray,LC ml,fresh g,Reason lost\n1,5,210,\n2,5,,trich\n3,10,233,-\n4,10,,fruit flies\n5,10,,wet rot\n",
    "1 5 210 - good|2 5 - - lost|3 10 233 - good|4 10 - - lost|5 10 - - lost",
  ],
  [
    "en date tossed",
    "tray,LC ml,Inoculated,Harvested,Tossed on,fresh g\n1,5,2026-01-05,2026-02-14,,210\n2,5,2026-01-05,,2026-01-22,\n3,10,2026-01-05,2026-02-15,,233\n4,10,2026-01-05,,2026-01-30,\n",
    "1 5 210 - good|2 5 - - lost|3 10 233 - good|4 10 - - lost",
  ],
  [
    "zero weight and note",
    "tray,LC ml,fresh g,dry g,notes\n1,5,210,21,\n2,5,0,0,trich\n3,10,0,0,\n4,10,233,23,\n5,10,0,,tossed\n",
    "1 5 210 21 good|2 5 0/- 0/- lost|3 10 0/- 0/- lost/asked|4 10 233 23 good|5 10 0/- - lost",
  ],
  [
    "good looking words that are losses",
    'tray,LC ml,fresh g,notes\n1,5,210,\n2,5,,beautiful green carpet lol\n3,10,,"good start, then Trich"\n4,10,,healthy till wk 3 - bin\n5,10,231,\n',
    "1 5 210 - good|2 5 - - lost|3 10 - - lost/asked|4 10 - - lost/asked|5 10 231 - good",
  ],
  [
    "growing notes",
    'tray,LC ml,fresh g,notes\n1,5,210,\n2,5,,pinning now\n3,10,,"fully colonised, moved to FC"\n4,10,,looks clean\n5,10,,half white\n',
    "1 5 210 - good|2 5 - - growing|3 10 - - growing|4 10 - - growing|5 10 - - growing/asked",
  ],
  [
    "status words",
    "Tray,ml,Status,Fresh g\n1,5,Done,210\n2,5,Lost - trich,\n3,10,In fruiting,\n4,10,Harvested,240\n5,10,Composted,\n6,10,Retired,\n7,5,Spawn run,\n8,5,Fruiting,\n",
    "1 5 210 - good|2 5 - - lost|3 10 - - growing|4 10 240 - good|5 10 - - lost|6 10 - - ?|7 5 - - growing|8 5 - - growing",
  ],
  [
    "caps and emoji",
    "Tray,ml,Fresh g,Notes\n1,5,210,👍\n2,5,,☠️\n3,10,,❌ contam\n4,10,240,✅\n5,10,,🗑\n",
    "1 5 210 - good|2 5 - - ?|3 10 - - lost|4 10 240 - good|5 10 - - ?",
  ],
  [
    "the lost words at header",
    "Tray,ml,Fresh g,Green mold?,Picked?\n1,5,210,n,y\n2,5,,y,n\n3,10,233,n,y\n4,10,,y,n\n",
    "1 5 210 - good|2 5 - - lost|3 10 233 - good|4 10 - - lost",
  ],
  [
    "species of mould",
    "Tray,ml,Fresh g,Notes\n1,5,210,\n2,5,,Penicillium\n3,10,,Neurospora (pink)\n4,10,,black pin mold\n5,10,,wet spot\n6,10,,sour rot\n7,10,228,\n8,5,,Aspergillus n.\n",
    "1 5 210 - good|2 5 - - lost|3 10 - - lost|4 10 - - lost|5 10 - - lost|6 10 - - lost|7 10 228 - good|8 5 - - lost",
  ],
  [
    "arrows & shorthand",
    'Tray,ml,Fresh g,Notes\n1,5,210,\n2,5,,d14 grn -> bin\n3,10,,"trich, comp."\n4,10,,NG\n5,10,226,\n6,10,,0 yield\n',
    "1 5 210 - good|2 5 - - lost/asked|3 10 - - lost|4 10 - - asked|5 10 226 - good|6 10 - - lost/asked",
  ],
  [
    "de two notes",
    "Schale;FK ml;Notiz Durchwachs;Notiz Ernte;Frisch g\n1;5;gut;;212\n2;5;Schimmel;;\n3;10;gut;verfault;\n4;10;langsam;spät geerntet;230\n",
    "1 5 212 - good|2 5 - - lost|3 10 - - lost/asked|4 10 230 - good",
  ],
  [
    "fr cause de perte",
    "Barquette;Dose mL;Poids frais (g);Cause de perte\n1;5;212;\n2;5;;moisissure verte\n3;10;;mouches\n4;10;230;\n",
    "1 5 212 - good|2 5 - - lost|3 10 - - lost|4 10 230 - good",
  ],
  [
    "es descartada fecha",
    "Bandeja;Dosis ml;Peso fresco g;Descartada\n1;5;212;\n2;5;;sí\n3;10;;sí\n4;10;230;no\n",
    "1 5 212 - good|2 5 - - lost|3 10 - - lost|4 10 230 - good",
  ],
  [
    "scope: a corner",
    'tray,LC ml,fresh g,notes\n1,5,210,mold on one corner only - still picked\n2,5,195,"cut off green bit, rest fine"\n3,10,230,\n4,10,,"mold on one corner, still going"\n',
    "1 5 210 - good|2 5 195 - good|3 10 230 - good|4 10 - - growing/asked",
  ],
  [
    "scope: until",
    "tray,LC ml,fresh g,notes\n1,5,,no mold until day 40 then binned\n2,5,,clean until d20 - then trich\n3,10,230,no mold until the very end\n4,10,,not contaminated when checked wk2\n5,10,,no contam the first 3 weeks\n",
    "1 5 - - lost|2 5 - - lost|3 10 230 - good|4 10 - - growing/asked|5 10 - - growing/asked",
  ],
  [
    "scope: flush",
    'tray,LC ml,fresh g,notes\n1,5,210,"second flush contaminated, first ok"\n2,5,205,tossed after 1st flush\n3,10,230,"2nd flush went green, binned"\n4,10,240,3rd flush none\n',
    "1 5 210 - good|2 5 205 - good|3 10 230 - good|4 10 240 - good",
  ],
  [
    "scope: neighbours",
    "tray,LC ml,fresh g,notes\n1,5,,next to T4 which got trich; this one clean\n2,5,,moved away from contaminated tray\n3,10,230,all others on this shelf tossed\n4,10,,lid tossed and replaced\n5,10,,swapped moldy lid\n",
    "1 5 - - growing/asked|2 5 - - growing/asked|3 10 230 - good|4 10 - - growing/asked|5 10 - - growing/asked",
  ],
  [
    "doubts",
    "tray,LC ml,fresh g,notes\n1,5,210,\n2,5,,mold?\n3,10,,maybe trich - watch\n4,10,,not sure if contam or just metabolites\n5,10,,might be contaminated\n6,10,,suspected bacterial blotch\n",
    "1 5 210 - good|2 5 - - asked|3 10 - - asked|4 10 - - asked|5 10 - - asked|6 10 - - asked",
  ],
  [
    "false alarm",
    "tray,LC ml,fresh g,notes\n1,5,210,thought it was mold but it was mycelium\n2,5,,false alarm - no trich\n3,10,230,looked green under the light. fine\n4,10,,yellow metabolites only\n",
    "1 5 210 - good|2 5 - - growing/asked|3 10 230 - good|4 10 - - growing/asked",
  ],
  [
    "neither nor",
    'tray,LC ml,fresh g,notes\n1,5,210,neither mold nor flies\n2,5,,no mold or bacteria\n3,10,,"no green, no smell"\n4,10,,without a trace of contamination\n5,10,,never saw any mold\n6,10,,zero contam\n7,10,,contam: none\n8,10,,contam - no\n',
    "1 5 210 - good|2 5 - - growing|3 10 - - growing|4 10 - - growing|5 10 - - growing|6 10 - - growing|7 10 - - growing|8 10 - - growing",
  ],
  [
    "no then loss",
    'tray,LC ml,fresh g,notes\n1,5,210,\n2,5,,no pins - tossed\n3,10,,"no mold, but dried out - discarded"\n4,10,,no fruits; binned after 60 d\n5,10,,not worth keeping\n6,10,,no good\n7,10,,wasn\'t mold but bacteria\n',
    "1 5 210 - good|2 5 - - lost|3 10 - - lost|4 10 - - lost|5 10 - - lost/asked|6 10 - - lost/asked|7 10 - - lost/asked",
  ],
  [
    "de negation",
    "Schale;FK ml;Frisch g;Bemerkung\n1;5;212;\n2;5;;keinerlei Schimmel\n3;10;;ohne Befall\n4;10;;nicht verschimmelt, nur langsam\n5;10;;bisher kein Schimmel zu sehen\n6;10;;schimmelfrei\n7;10;;anfangs kein Schimmel, dann Trichoderma - entsorgt\n8;10;;weder Schimmel noch Bakterien\n",
    "1 5 212 - good|2 5 - - growing|3 10 - - growing|4 10 - - growing|5 10 - - growing|6 10 - - growing|7 10 - - lost|8 10 - - growing",
  ],
  [
    "fr negation",
    "bac;dose ml;poids frais g;remarques\n1;5;212;\n2;5;;aucune moisissure\n3;10;;pas de vert\n4;10;;n'est pas contaminé\n5;10;;jamais moisi\n6;10;;ni moisissure ni bactéries\n7;10;;pas de moisissure au début puis trichoderma, jeté\n",
    "1 5 212 - good|2 5 - - growing|3 10 - - growing/asked|4 10 - - growing|5 10 - - growing|6 10 - - growing|7 10 - - lost",
  ],
  [
    "es negation",
    "bandeja;dosis ml;peso fresco g;notas\n1;5;212;\n2;5;;ningún moho\n3;10;;no se contaminó\n4;10;;sin rastro de moho\n5;10;;ni moho ni bacterias\n6;10;;libre de contaminación\n7;10;;sin moho hasta el día 20 y luego se pudrió\n",
    "1 5 212 - good|2 5 - - growing|3 10 - - growing|4 10 - - growing|5 10 - - growing|6 10 - - growing|7 10 - - lost/asked",
  ],
  [
    "it negation",
    "vaschetta;dose ml;peso fresco g;note\n1;5;212;\n2;5;;nessuna muffa\n3;10;;non è contaminata\n4;10;;senza traccia di muffa\n5;10;;né muffa né batteri\n6;10;;niente muffa\n7;10;;all'inizio niente muffa poi verde - buttata\n",
    "1 5 212 - good|2 5 - - growing|3 10 - - growing|4 10 - - growing|5 10 - - growing|6 10 - - growing|7 10 - - lost",
  ],
  [
    "nl negation",
    "bak;dosis ml;vers g;opmerkingen\n1;5;212;\n2;5;;geen spoor van schimmel\n3;10;;niet beschimmeld\n4;10;;schimmelvrij\n5;10;;zonder besmetting\n6;10;;nog geen groen\n7;10;;eerst geen schimmel, later groen, weggegooid\n",
    "1 5 212 - good|2 5 - - growing|3 10 - - growing|4 10 - - growing|5 10 - - growing|6 10 - - growing/asked|7 10 - - lost",
  ],
  [
    "pl negation",
    "tacka;dawka ml;świeża masa g;uwagi\n1;5;212;\n2;5;;brak pleśni\n3;10;;nie spleśniała\n4;10;;bez śladów pleśni\n5;10;;żadnej pleśni\n6;10;;nie ma zakażenia\n7;10;;najpierw bez pleśni potem zielona wyrzucona\n",
    "1 5 212 - good|2 5 - - growing|3 10 - - growing|4 10 - - growing|5 10 - - growing|6 10 - - growing|7 10 - - lost",
  ],
  [
    "pt negation",
    "bandeja;dose ml;peso fresco g;observações\n1;5;212;\n2;5;;nenhum mofo\n3;10;;não mofou\n4;10;;sem sinal de bolor\n5;10;;nem mofo nem bactéria\n6;10;;livre de contaminação\n7;10;;sem mofo até o dia 30 depois contaminou\n",
    "1 5 212 - good|2 5 - - growing|3 10 - - growing|4 10 - - growing|5 10 - - growing|6 10 - - growing|7 10 - - lost",
  ],
  [
    "outcome col phrases",
    "Tray,ml,Outcome,Fresh g\n1,5,no issues,210\n2,5,clean harvest,205\n3,10,not contaminated,230\n4,10,slight contam but harvested,200\n5,10,ok (bit of green),215\n6,10,contam-free,228\n7,5,total loss,\n8,5,partial loss,150\n",
    "1 5 210 - good|2 5 205 - good|3 10 230 - good|4 10 200 - good/asked|5 10 215 - good/asked|6 10 228 - good|7 5 - - lost|8 5 150 - good/asked",
  ],
  [
    "contam col with text",
    "Tray,ml,Contamination,Fresh g\n1,5,none,210\n2,5,-,205\n3,10,trich,\n4,10,nope,228\n5,10,little bit,200\n6,10,0,221\n7,5,yes!!,\n8,5,all of it,\n",
    "1 5 210 - good|2 5 205 - good|3 10 - - lost|4 10 228 - good|5 10 200 - good/asked|6 10 221 - good|7 5 - - lost|8 5 - - lost/asked",
  ],
  [
    "contradiction",
    "Tray,ml,Outcome,Fresh g,Notes\n1,5,good,210,\n2,5,contaminated,205,\n3,10,good,,tossed\n4,10,contaminated,,no mold\n5,10,good,220,contam\n",
    "1 5 210 - good|2 5 -/205 - contaminated/asked|3 10 - - asked|4 10 - - contaminated|5 10 220 - good",
  ],
  [
    "harvest words without weights",
    'Tray,ml,Fresh g,Notes\n1,5,210,\n2,5,,"picked, forgot to weigh"\n3,10,230,\n4,10,,ate it before weighing\n5,10,,given away\n',
    "1 5 210 - good|2 5 - - good/asked|3 10 230 - good|4 10 - - ?|5 10 - - ?",
  ],
  [
    "conditional plans",
    "Tray,ml,Fresh g,Notes\n1,5,210,\n2,5,,will toss if green\n3,10,,check for mold tmrw\n4,10,,watch for contam\n5,10,,toss on Friday if no pins\n",
    "1 5 210 - good|2 5 - - growing/asked|3 10 - - growing/asked|4 10 - - growing/asked|5 10 - - growing/asked",
  ],
  [
    "de scope",
    "Schale;FK ml;Frisch g;Bemerkung\n1;5;212;2. Welle verschimmelt\n2;5;;nach 1. Welle entsorgt\n3;10;230;kleine Stelle Schimmel weggeschnitten\n4;10;;Nachbarschale verschimmelt\n5;10;;Deckel verschimmelt gewesen, getauscht\n6;10;;auf Schimmel prüfen\n",
    "1 5 212 - good|2 5 - - lost/asked|3 10 230 - good|4 10 - - growing/asked|5 10 - - growing/asked|6 10 - - growing/asked",
  ],
  [
    "fr scope",
    "bac;dose ml;poids frais g;remarques\n1;5;212;2e volée contaminée\n2;5;;voisin contaminé\n3;10;230;petit coin moisi retiré\n4;10;;surveiller moisissure\n5;10;;moisissure possible\n",
    "1 5 212 - good|2 5 - - growing/asked|3 10 230 - good|4 10 - - growing/asked|5 10 - - asked",
  ],
  [
    "es scope",
    "bandeja;dosis ml;peso fresco g;notas\n1;5;212;segunda oleada contaminada\n2;5;;posible moho\n3;10;230;esquina con moho cortada\n4;10;;vigilar moho\n5;10;;la vecina se contaminó\n",
    "1 5 212 - good|2 5 - - asked|3 10 230 - good|4 10 - - growing/asked|5 10 - - growing/asked",
  ],
  [
    "it doubts",
    "vaschetta;dose ml;peso fresco g;note\n1;5;212;\n2;5;;forse muffa\n3;10;;sospetta contaminazione\n4;10;;controllare muffa\n",
    "1 5 212 - good|2 5 - - asked|3 10 - - asked|4 10 - - growing/asked",
  ],
  [
    "nl doubts",
    "bak;dosis ml;vers g;opmerkingen\n1;5;212;\n2;5;;misschien schimmel\n3;10;;mogelijk besmet\n4;10;;in de gaten houden op schimmel\n",
    "1 5 212 - good|2 5 - - asked|3 10 - - asked|4 10 - - growing/asked",
  ],
  [
    "pt doubts",
    "bandeja;dose ml;peso fresco g;observações\n1;5;212;\n2;5;;talvez mofo\n3;10;;suspeita de contaminação\n4;10;;ficar de olho no mofo\n",
    "1 5 212 - good|2 5 - - asked|3 10 - - asked|4 10 - - growing/asked",
  ],
  [
    "es, a loss in words nobody knows, beside one that grows and says so",
    "bandeja;dosis ml;fresco g;obs\n1;5;190;\n2;5;;moho negro\n3;10;225;\n4;10;;no dio setas\n5;10;;limpia, todavía colonizando\n",
    "1 5 190 - good|2 5 - - lost|3 10 225 - good|4 10 - - lost/asked|5 10 - - growing",
  ],
  [
    "pl, the same",
    "tacka;dawka ml;świeża g;uwagi\n1;5;190;\n2;5;;poszła do śmieci\n3;10;225;ok\n4;10;;czysta, jeszcze przerasta\n",
    "1 5 190 - good|2 5 - - lost/asked|3 10 225 - good|4 10 - - growing",
  ],
  [
    "what growers say of losses beside trays that grow",
    "Tray,LC ml,Fresh g,Notes\n1,5,205,\n2,5,,stinks\n3,5,,\n4,8,,black spots all over\n5,8,,\n6,8,230,smells bad but fine\n",
    "1 5 205 - good|2 5 - - asked/contaminated|3 5 - - growing|4 8 - - asked/contaminated|5 8 - - growing|6 8 230 - good",
  ],
  [
    "a form's questions",
    "Timestamp,Which tray is this?,How many mL of liquid culture did you inject?,What was the fresh weight (grams)?,What was the dry weight (grams)?,Did the tray contaminate?,Anything else to add?\n4/20/2026 9:14:22,1,5,212,21.5,No,\n4/20/2026 9:15:40,2,5,198,19.9,No,small caps\n4/20/2026 9:17:03,3,10,251,25.2,No,\n4/20/2026 9:18:11,4,10,,,Yes,green corner\n4/22/2026 18:02:10,5,15,,,Yes,\n",
    "1 5 212 21.5 good|2 5 198 19.9 good|3 10 251 25.2 good|4 10 - - contaminated|5 15 - - contaminated",
  ],
  [
    "a form's questions, German",
    "Zeitstempel;Welche Schale?;Wieviel ml Flüssigkultur?;Frischgewicht in Gramm?;Trockengewicht in Gramm?;Ist die Schale kontaminiert?\n20.04.2026 09:14:22;1;5;210,5;21;Nein\n20.04.2026 09:14:22;2;10;;;Ja\n",
    "1 5 210.5 21 good|2 10 - - contaminated",
  ],
  [
    "a form's questions, French",
    "Horodateur;Quel bac ?;Combien de ml de culture liquide ?;Poids frais (g) ?;Poids sec (g) ?;Le bac est-il contaminé ?\n20/04/2026 09:14:22;1;5;210,5;21;Non\n20/04/2026 09:14:22;2;10;;;Oui\n",
    "1 5 210.5 21 good|2 10 - - contaminated",
  ],
  [
    "a form's questions, Spanish",
    "Marca temporal;¿Qué bandeja?;¿Cuántos ml de cultivo líquido?;¿Peso fresco en gramos?;¿Peso seco en gramos?;¿Se contaminó la bandeja?\n20/04/2026 09:14:22;1;5;210,5;21;No\n20/04/2026 09:14:22;2;10;;;Sí\n",
    "1 5 210.5 21 good|2 10 - - contaminated",
  ],
  [
    "a form's questions, Italian",
    "Informazioni cronologiche;Quale vassoio?;Quanti ml di coltura liquida?;Peso fresco in grammi?;Peso secco in grammi?;Il vassoio è contaminato?\n20/04/2026 09:14:22;1;5;210,5;21;No\n20/04/2026 09:14:22;2;10;;;Sì\n",
    "1 5 210.5 21 good|2 10 - - contaminated",
  ],
  [
    "a form's questions, Dutch",
    "Tijdstempel;Welke bak?;Hoeveel ml vloeibare cultuur?;Vers gewicht in gram?;Droog gewicht in gram?;Is de bak besmet?\n20-04-2026 09:14:22;1;5;210,5;21;Nee\n20-04-2026 09:14:22;2;10;;;Ja\n",
    "1 5 210.5 21 good|2 10 - - contaminated",
  ],
  [
    "a form's questions, Polish",
    "Sygnatura czasowa;Która tacka?;Ile ml płynnej kultury?;Świeża masa w gramach?;Sucha masa w gramach?;Czy tacka jest skażona?\n20.04.2026 09:14:22;1;5;210,5;21;Nie\n20.04.2026 09:14:22;2;10;;;Tak\n",
    "1 5 210.5 21 good|2 10 - - contaminated",
  ],
  [
    "a form's questions, Portuguese",
    "Carimbo de data/hora;Qual bandeja?;Quantos ml de cultura líquida?;Peso fresco em gramas?;Peso seco em gramas?;A bandeja contaminou?\n20/04/2026 09:14:22;1;5;210,5;21;Não\n20/04/2026 09:14:22;2;10;;;Sim\n",
    "1 5 210.5 21 good|2 10 - - contaminated",
  ],
  [
    "yes to a tray that is lost",
    "Tray,LC ml,Fresh g,Is this tray lost?\n1,5,210,no\n2,5,,yes\n3,10,250,no\n",
    "1 5 210 - good|2 5 - - lost|3 10 250 - good",
  ],
  [
    "yes to what was thrown out",
    "Tray,LC ml,Fresh g,Did you throw it out?\n1,5,210,no\n2,5,,yes\n3,10,250,no\n",
    "1 5 210 - good|2 5 - - lost|3 10 250 - good",
  ],
  [
    "yes to mold",
    "Tray,LC ml,Fresh g,Does the tray have mold?\n1,5,210,no\n2,5,,yes\n3,10,250,no\n",
    "1 5 210 - good|2 5 - - contaminated|3 10 250 - good",
  ],
  [
    "y to what went bad",
    "Tray,LC ml,Fresh g,Tray went bad (y/n)\n1,5,210,n\n2,5,,y\n3,10,250,n\n",
    "1 5 210 - good|2 5 - - lost|3 10 250 - good",
  ],
  [
    "yes to what had to be tossed",
    "Tray,LC ml,Fresh g,Did you have to toss it?\n1,5,210,no\n2,5,,yes\n3,10,250,no\n",
    "1 5 210 - good|2 5 - - lost|3 10 250 - good",
  ],
  [
    "no where all that were picked have yes",
    "Tray,LC ml,Fresh g,Did it fruit?\n1,5,210,yes\n2,5,,no\n3,10,250,yes\n",
    "1 5 210 - good|2 5 - - lost/asked|3 10 250 - good",
  ],
  [
    "no to what is still alive",
    "Tray,LC ml,Fresh g,Is it still alive?\n1,5,210,yes\n2,5,,no\n3,10,250,yes\n",
    "1 5 210 - good|2 5 - - lost/asked|3 10 250 - good",
  ],
  [
    "see notes in place of a weight",
    "Tray,LC ml,Fresh g,Notes\n1,5,210,\n2,10,—,\n3,10,n/a,\n4,10,tbd,\n5,10,see notes,went green\n",
    "1 5 210 - good|2 10 - - growing|3 10 - - growing|4 10 - - growing|5 10 - - contaminated",
  ],
  [
    "questions with units",
    "Tray number?,How much LC (ml)?,Wet weight after picking (g)?\n1,5,210\n2,10,240\n",
    "1 5 210 - good|2 10 240 - good",
  ],
  [
    "yes and no to what was done, beside trays that grow",
    "Tray,LC ml,Fresh g,Fanned daily\n1,5,210,yes\n2,10,,no\n3,10,,\n4,5,205,yes\n",
    "1 5 210 - good|2 10 - - growing|3 10 - - growing|4 5 205 - good",
  ],
  [
    "no to any good",
    "Tray,LC ml,Fresh g,Is this tray any good?\n1,5,210,yes\n2,10,,no\n3,10,250,yes\n",
    "1 5 210 - good|2 10 - - failed/lost/asked|3 10 250 - good",
  ],
  [
    "when it contaminated",
    "Tray,LC ml,Fresh g,When did it contaminate?\n1,5,210,\n2,10,,2026-03-15\n3,10,250,\n",
    "1 5 210 - good|2 10 - - contaminated|3 10 250 - good",
  ],
];

test.each(typed)("%s", async (_, sheets, truth) => {
  const book = await bookOf(typeof sheets === "string" ? { "harvests/one.csv": sheets } : sheets);
  expect(misread(book, truth)).toEqual({ missing: [], left: [] });
  expect(book.account?.lost).toBe(0);
  expect(allFacts(await harvestOf(cleanedHarvestCsv(book)))).toEqual(allFacts(book));
});

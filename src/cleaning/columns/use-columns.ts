import { fold } from "../../records/words/fold.ts";
import { saysNothing } from "../../records/words/header-words.ts";
import { isBeforeNegation } from "../values/outcome-phrases.ts";
import type { ColumnMeaning } from "./column-plan.ts";

/** Why a column is taken for the grower's mark of which trays count: by a yes, by a mark where a blank says no, or by a no. */
export const yesCounts = "says whether the tray counts";
export const onlyMarkedCount = "marks the trays that count";
export const noCounts = "says whether the tray is left out";

/** Whether a column, by what it was taken for, says which trays count. */
export const saysUse = (because: string): boolean =>
  because === yesCounts || because === onlyMarkedCount || because === noCounts;

// in the eight languages, from memory
const words = (text: string): ReadonlySet<string> => new Set(text.split(" "));
const counting = words(
  "keep use used include included inclusion valid counts counted behalten verwenden verwendet nutzen auswerten ausgewertet werten gewertet gultig zahlt garder utiliser inclure inclus incluse valide retenu retenue usar usado usada incluir incluido incluida valido valida usare usato usata includere incluso inclusa tenere considerare considerar gebruiken gebruikt meetellen meegeteld geldig uzyc uwzglednic uwzgledniona wazny wazna manter",
);
const leavingOut = words(
  "exclude excluded exclusion omit omitted ignore ignored skip skipped void voided invalid leave outlier ausschliessen ausgeschlossen ausschluss ignorieren weglassen ungultig ausreisser exclure exclu exclue ignorer ecarter ecarte invalide excluir excluido excluida ignorar omitir anulado anulada invalido invalida escludere escluso esclusa ignorare annullato annullata uitsluiten uitgesloten negeren ongeldig wykluczyc wykluczona wykluczony pominac niewazny niewazna",
);
const beside = words(
  "analysis stats statistics calculation calculations results data report average averages mean row tray it this ok do don t dont ne out reason why because auswertung analyse statistik berechnung grund warum calcul raison analisis calculo motivo analisi calcolo berekening reden analiza analizie obliczenia powod analise",
);

/** A header of nothing but a word for what counts, or for what is left out: "Include in analysis?", "Do not use", "Ausgeschlossen". */
export function useByName(header: string): ColumnMeaning[] {
  let counts: boolean | undefined;
  let isDenied = false;
  for (const word of fold(header).split(" ")) {
    if (isBeforeNegation(word) || word === "don" || word === "dont") isDenied = true;
    else if (counting.has(word)) counts ??= true;
    else if (leavingOut.has(word)) counts = false;
    else if (!beside.has(word) && !saysNothing(word)) return [];
  }
  if (counts === undefined) return [];
  return [{ field: "note", because: counts === isDenied ? noCounts : yesCounts, rank: 1, unit: "" }];
}

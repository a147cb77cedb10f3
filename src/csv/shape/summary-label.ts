import { isNothing } from "./cell-kind.ts";
import { isValueLike } from "./value-like.ts";

// Words for a sum, a mean, a count or a spread in English, German, French, Spanish, Italian, Dutch, Polish and
// Portuguese, without accents. From memory of the names that spreadsheet programs and growers give them.
const sums =
  "totals?|sub-?totals?|sums?|grand total|summe|gesamt(?:summe)?|zwischensumme|insgesamt|total general|somme|sous-total|totaux|suma|subtotales|totales|somma|totale|subtotale|totali|totaal|subtotaal|som|eindtotaal|razem|suma calkowita|suma czesciowa|lacznie|ogolem|soma|totais|subtotais|\u03a3|\u2211";
const means =
  "averages?|avg|aver|mean|medians?|durchschnitt(?:lich)?|mittel(?:wert)?|schnitt|moyennes?|moy|mediane?|promedios?|medias?|prom|mediana|gemiddelden?|gem|mediaan|srednia|sr|medianas?|x\u0304|\u00f8|\u2300";
const spreads =
  "std\\.? ?dev|st\\.? ?dev|stdev|standard deviation|s\\.?d|s\\.?e\\.?m?|se|variance|standard error|min(?:imum)?|max(?:imum)?|count|range|cv|n|standardabweichung|stabw|anzahl|spannweite|varianz|ecart[- ]type|nombre|effectif|desviacion(?: estandar| tipica)?|desv|conteo|recuento|deviazione(?: standard)?|dev\\.? ?st|conteggio|standaarddeviatie|aantal|odchylenie(?: standardowe)?|liczba|ilosc|desvio(?: padrao)?|contagem|minimo|massimo|maximo|minimalna|maksymalna|rsd|iqr";
const before =
  "grand|sub|over-?all|running|cook|batch|tray|block|bag|all|column|sheet|season|month(?:ly)?|week(?:ly)?|yield|fresh|dry|weight|the";
// "Total w/o T1", "Sum excluding lost trays"
const without = "(?:\\s+(?:w/?o|without|excl|excluding|ex|except|ohne|sans|sin|senza|zonder|bez|sem)\\b.*)?";
const after =
  "(?:\\s*[:=]|\\s*\\([^)]*\\)|\\s*/\\s*\\p{L}+|\\s+(?:of|for|per|over|all|fresh|dry|dried|wet|weight|wt|yield|cost|costs|g|grams|kg|lbs?|oz|trays?|bags?|blocks?|batch|cook|run|charge|lot|lote|lotto|partij|partia|pro|par|por|je|na|schalen?|beutel|und|and|&)\\b.*|\\s+#?\\p{L}{0,3}-?\\d{1,4}|\\s+\\p{L})?";
const label = new RegExp(`^(?:(?:${before})[\\s-]*)*(?:${sums}|${means})\\.?${after}${without}\\s*$`, "iu");
// a name of a cook, then what it is: "Batch A mean", "C1 total"
const trailing =
  /^.{1,40}\b(?:sub-?totals?|totals?|average|avg|mean|summe|mittelwert|moyenne|media|totaal|razem|soma)\.?\s*:?$/iu;
const spread = new RegExp(`^(?:${spreads})\\.?\\s*[:=]?$`, "iu");

const folded = (text: string): string =>
  text
    .normalize("NFKD")
    .replace(/[\u0300-\u036f]/g, "")
    .replace(/[łŁ]/g, "l")
    .trim();

/** Whether a text names a sum or a mean: "Total", "Avg/tray", "Batch A mean", "Zwischensumme". */
export function namesSummary(cell: string): boolean {
  const text = cell.trim();
  if (text === "" || text.length > 60 || (!/\p{L}/u.test(text) && !/^[ΣØ∑⌀]/u.test(text))) return false;
  const plain = folded(text);
  return label.test(plain) || trailing.test(plain);
}

/** Whether a text names a count or a spread: "n", "Std dev", "max". */
export const namesSpread = (cell: string): boolean => spread.test(folded(cell));

/** Where and why a row is a summary by its label. */
export interface SummaryLabel {
  label: string;
  column: number;
}

/**
 * The label that makes a row a summary ("Total", "Average dry", "Std dev"): it stands in any column, and every other cell
 * is a number, a formula's error, a dot or a dash, or empty.
 * @param afterSummary whether the row right above is blank or sums up; labels of spread such as "min" need that
 * @param isTrayName whether a cell reads like the name of a tray; a row that has one is a tray's, whatever its note says
 */
export function summaryLabel(
  cells: ReadonlyArray<string>,
  afterSummary: boolean,
  isTrayName: (cell: string, column: number) => boolean = () => false,
): SummaryLabel | undefined {
  let found: SummaryLabel | undefined;
  for (let column = 0; column < cells.length; column++) {
    const cell = cells[column]!;
    // plain digits, which most cells are, rule nothing out
    const code = cell.charCodeAt(0);
    if (cell === "" || (code >= 48 && code <= 57 && !/\p{L}/u.test(cell))) continue;
    const text = cell.trim();
    if (isNothing(text) || isTrayName(text, column)) {
      if (!isNothing(text)) return undefined;
      continue;
    }
    if (namesSummary(text) || (namesSpread(text) && (afterSummary || found !== undefined))) {
      found ??= { label: text, column };
      continue;
    }
    if (isValueLike(text) && !/^\p{L}/u.test(text)) continue;
    return undefined;
  }
  return found;
}

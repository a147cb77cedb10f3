// In the eight languages, from memory.
const voided =
  /(?<!\p{L})(?:void(?:ed)?|struck through|ignore(?= (?:this|these|all|rows?|tray|it|weight|below)(?!\p{L})|[^\p{L}]*$)|disregard|(?:do not|don.?t) (?:count|use)|not valid|invalid|ungültig|nicht (?:zählen|werten|verwenden)|ignorieren|ne pas compter|à ignorer|non valable|anulad[oa]|no contar|ignorar|annullat[oa]|non contare|da ignorare|ongeldig|niet meetellen|negeren|nieważn[aey]|nie liczyć|pominąć|inválid[oa]|não contar)(?!\p{L})/iu;

/** Whether a text says that a row, or what stands below it, is not to be counted. @example isVoid("OLD - ignore below") // true */
export const isVoid = (text: string): boolean => voided.test(text);

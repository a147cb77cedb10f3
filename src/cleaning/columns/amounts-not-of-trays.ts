import type { HarvestFieldKey } from "../../records/harvest-field.ts";
import { perWords } from "../../records/words/per-words.ts";

/** What doses are counted in that are neither weight nor volume: twenty drops are no 20 mL. */
export const otherMeasure =
  /\b(?:drops?|pumps?|squirts?|scoops?|spoons?|plugs?|wedges?|cubes?|handfuls?|tropfen|löffel|gouttes?|cuillères?|gotas?|gocce|cucchiai|druppels?|lepels?|krople|kropli|łyżki|colheres)\b/iu;

/** What is stated for each kilogram, litre, hundred grams or cook is no amount of a tray: "mL per kg", "g/kg", "ml je Liter". */
const perAmount = new RegExp(
  `(?:\\b(?:${perWords})\\s+|(?:\\b(?:ml|cc|g|kg|oz)\\s*(?:/|\\b(?:op|a)\\s)|/)\\s*)(?:100 ?g|1000 ?g|g|gram[mo]?s?|kg|kilos?|kilograms?|lbs?|pounds?|ml|l|lit(?:er|re|ro|r)s?|loads?|cooks?|batch(?:es)?|rack|shots?|squirts?|jabs?|injections?|syringes?|spritzen?|seringues?|jeringas?|siringa|spuit|strzykawk[aęi]|seringas?|charge|ladung|lot|fournée|lote|carga|lotto|partij|partia|\\d+ \\p{L}+)\\b`,
  "iu",
);

/** "Trays per shelf", "No. of bags / tent": how many a group held, not which it was. */
export const countOfGroup = new RegExp(
  `^(?:(?:no\\.?|number|#)\\s*(?:of\\s+)?)?(?:trays|bags|blocks)\\s*(?:/|\\b(?:on|in|a|each|${perWords})\\b)`,
  "iu",
);
/** What many trays may have been in together. */
export const traysShare: ReadonlyArray<HarvestFieldKey> = ["batch", "load", "load_position", "jar", "shelf", "chamber"];

/** "Colonised week" may be one of the calendar's. In the eight languages. */
export const aWeek = /\b(?:week|woche|semaine|semana|settimana|tydzien)\b/;
/** "Inoculum (% of substrate)"; in "Spawn 10% (g)" the share is one of the names. */
export const share = /(?<!\d\s*)%/;

/** "Fresh g (target)", "Dry (sold)": a remark in brackets that makes the amount another one. In the eight languages, from memory. */
export const anotherAmount =
  /[([][^)\]]*(?<!\p{L})(?:target|goal|planned|expected|predicted|(?:un)?sold|ziel|soll|geplant|verkauft|prévue?s?|vendue?s?|previst[oa]s?|vendid[oa]s?|vendut[oa]|gepland|verkocht|planowan[ae]|sprzedan[ae])(?!\p{L})/iu;

/** "LC / ml": a quantity over its unit, as ISO 80000-1 (7.1.4) heads columns; a tray's dose or weight is in no larger ones. */
const overUnit = /(?<!\b(?:ml|cc|g|kg|oz)\s*)\/\s*(?:g|ml|oz)$/i;

/** Whether a header states an amount for another amount. */
export const isRate = (header: string): boolean => perAmount.test(header) && !overUnit.test(header.trim());

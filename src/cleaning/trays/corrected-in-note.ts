import { pickingsOf, type Tray } from "../../records/tray.ts";
import { trayKey } from "./tray-key.ts";

// Words of a correction in the eight languages, from memory.
const corrects =
  /(?<!\p{L})(?:should(?: have)? (?:be|been|read|say)|meant|actually|really|in fact|correct(?:ed|ion)?|typo|misread|sollte|eigentlich|richtig|korrigiert|gemeint|devrait être|en fait|corrig[ée]e?|debería ser|debe ser|en realidad|corregido|dovrebbe essere|in realtà|corretto|moet zijn|eigenlijk|gecorrigeerd|bedoeld|powinno być|właściwie|poprawione|devia ser|deve ser|na verdade|corrigido)[^\p{L}\d]{0,3}(?:(?:is|to|be|read|weight|weighed|sein|ist|auf|à|a|na|é|was|were|it|only)\s+){0,3}[^\p{L}\d]{0,3}(\d+(?:[.,]\d+)?)\s*(?:g|gr|grams?)?(?![\p{L}\d.,/:°%]|\s*(?:m[lL]|cc|d|days?|h|weeks?|°|%|\/))/iu;
/** "reweighed: 214", "weighed again next day 235" */
const reweighed =
  /(?<!\p{L})(?:re-?weigh\p{L}*|weighed (?:it )?(?:again|twice)|second weighing|nachgewogen|(?:neu|nochmals?|erneut|wieder) gewogen|re-?pesée?s?|pesée? (?:à nouveau|de nouveau|encore)|re-?pesad[oa]|pesad[oa] (?:de nuevo|otra vez|de novo|outra vez)|ripesat[oa]|pesat[oa] (?:di nuovo|ancora)|herwogen|(?:opnieuw|nog eens) gewogen|(?:ponownie|jeszcze raz) z?ważon\p{L}*|z?ważon\p{L}* (?:ponownie|jeszcze raz))(?:[^\p{L}\d]+\p{L}+){0,4}[^\p{L}\d]{1,3}(\d+(?:[.,]\d+)?)\s*(?:g|gr|grams?)?\s*(?:$|[.,;)!])/iu;
const insteadOf = /(\d+(?:[.,]\d+)?)\s*g?,?\s+(?:not|nicht|pas|et non|no|non|niet|nie|não)\s+(\d+(?:[.,]\d+)?)/iu;
// "A3 should be", "A3's weight was actually", "A3:"; "correction for A3: 210"
const name = "(?<![\\p{L}\\d])([\\p{L}#]{0,8}[- ]?\\d{1,4}[\\p{L}]?)";
const ofOther = new RegExp(
  `${name}(?:['’]s)?[\\s:,(–-]+(?:(?:was|is|fresh|dry|wet|weight|wt|weighed|ist|war|était|era|waga)\\s+){0,3}$`,
  "iu",
);
const forOther = new RegExp(
  `(?:correct(?:ion|ed)?|typo|mistake|korrektur|korrigiert|correction|corrección|correzione|correctie|korekta|correção)\\s*[:,]?\\s+(?:(?:for|of|on|in|to|tray|für|zu|pour|de|para|per|voor|do)\\s+){0,2}${name}\\s*[:=,–-]?\\s*(?:(?:is|was|now|to)\\s+)?(\\d+(?:[.,]\\d+)?)\\s*(?:g|gr|grams?)?$`,
  "iu",
);

type Weighed = Pick<Tray, "trayId" | "freshGrams" | "dryGrams" | "harvestedOn" | "flushes" | "note">;

/** What a note corrects: the weight, and the name of the other tray that it speaks of where it does. */
export interface Correction {
  grams: number;
  /** as typed; "" where it is the tray's own weight */
  ofOther: string;
}

const number = (text = ""): number => Number(text.replace(",", "."));

const weightsOf = (tray: Weighed): number[] =>
  [tray, ...pickingsOf(tray)].flatMap((one) => [one.freshGrams, one.dryGrams].filter((weight) => weight !== undefined));

/** Whether a tray has a weight already, to the half gram. */
export const hasWeight = (tray: Weighed, grams: number): boolean =>
  weightsOf(tray).some((weight) => Math.abs(weight - grams) <= 0.5);

/**
 * The weight by which a note corrects one, such as "sorry, meant 231"; undefined where it has none, or the one that is used.
 * "A3 should be 210" in another tray's row corrects none of that row.
 */
export function correctedInNote(tray: Weighed): Correction | undefined {
  const { note = "", trayId } = tray;
  const otherBefore = (text: string): string => {
    const other = ofOther.exec(text)?.[1] ?? "";
    return trayKey(other) === trayKey(trayId) || (/^\d+$/.test(other) && hasWeight(tray, Number(other))) ? "" : other;
  };
  // "236, not 263"
  const instead = insteadOf.exec(note);
  if (instead !== null) {
    const [right, wrong] = [number(instead[1]), number(instead[2])];
    const other = otherBefore(note.slice(0, instead.index));
    if (other !== "" || (hasWeight(tray, wrong) && !hasWeight(tray, right))) return { grams: right, ofOther: other };
  }
  const named = forOther.exec(note.trim());
  if (named !== null && trayKey(named[1]!) !== trayKey(trayId)) return { grams: number(named[2]), ofOther: named[1]! };
  const found = corrects.exec(note) ?? reweighed.exec(note);
  if (found === null) return undefined;
  const grams = number(found[1]);
  const other = otherBefore(note.slice(0, found.index));
  // "actually 2 flushes" is no weight
  const isNear = weightsOf(tray).some((weight) => grams > 0.15 * weight && grams < 10.5 * weight);
  if (!isNear || (other === "" && hasWeight(tray, grams))) return undefined;
  return { grams, ofOther: other };
}

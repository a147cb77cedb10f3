import { pickingsOf, type Tray } from "../../records/tray.ts";

// Words of a correction in the eight languages, from memory.
const corrects =
  /(?<!\p{L})(?:should(?: have)? (?:be|been|read|say)|meant|actually|really|in fact|correct(?:ed|ion)?|typo|misread|sollte|eigentlich|richtig|korrigiert|gemeint|devrait être|en fait|corrig[ée]e?|debería ser|debe ser|en realidad|corregido|dovrebbe essere|in realtà|corretto|moet zijn|eigenlijk|gecorrigeerd|bedoeld|powinno być|właściwie|poprawione|devia ser|deve ser|na verdade|corrigido)[^\p{L}\d]{0,3}(?:(?:is|to|be|read|weight|weighed|sein|ist|auf|à|a|na|é|was|were|it|only)\s+){0,3}[^\p{L}\d]{0,3}(\d+(?:[.,]\d+)?)\s*(?:g|gr|grams?)?(?![\p{L}\d.,/:°%]|\s*(?:m[lL]|cc|d|days?|h|weeks?|°|%|\/))/iu;
const insteadOf = /(\d+(?:[.,]\d+)?)\s*g?,?\s+(?:not|nicht|pas|et non|no|non|niet|nie|não)\s+(\d+(?:[.,]\d+)?)/iu;
const ofOther = /(?<![\p{L}\d])[\p{L}#]{0,5}[- ]?\d{1,4}\s+$/u;

/**
 * The weight by which a note corrects the one in its row, such as "sorry, meant 231"; undefined where it has none, or the one
 * that is used. "A3 should be 210" in another tray's row corrects none of that row.
 */
export function correctedInNote(
  tray: Pick<Tray, "trayId" | "freshGrams" | "dryGrams" | "harvestedOn" | "flushes" | "note">,
):
  | {
      grams: number;
      ofOther: boolean;
    }
  | undefined {
  const { note = "", trayId } = tray;
  const number = (text = ""): number => Number(text.replace(",", "."));
  const weights = [tray, ...pickingsOf(tray)].flatMap(({ freshGrams, dryGrams }) => [freshGrams, dryGrams]);
  const isUsed = (grams: number) => weights.some((weight) => weight !== undefined && Math.abs(weight - grams) <= 0.5);
  // "236, not 263"
  const [, right, wrong] = insteadOf.exec(note) ?? [];
  if (right !== undefined && isUsed(number(wrong)) && !isUsed(number(right)))
    return { grams: number(right), ofOther: false };
  const found = corrects.exec(note);
  if (found === null) return undefined;
  const grams = number(found[1]);
  // "actually 2 flushes" is no weight
  const isNear = weights.some((weight) => weight !== undefined && grams > 0.15 * weight && grams < 10.5 * weight);
  if (isUsed(grams) || !isNear) return undefined;
  const before = ofOther.exec(note.slice(0, found.index))?.[0].trim();
  return { grams, ofOther: before !== undefined && before.toLowerCase() !== trayId.toLowerCase() };
}

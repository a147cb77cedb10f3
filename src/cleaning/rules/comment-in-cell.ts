import { fold } from "../../records/words/fold.ts";
import { phrasesOf } from "../../records/words/languages.ts";
import { unitNamed, unitOfAnyKind } from "../../records/words/units.ts";
import { parseDate } from "../dates/parse-date.ts";
import { doubtsAmount, doubtsTray, isNotAll, partsOf } from "../values/doubts.ts";
import { addedUp } from "../values/read-amount.ts";
import { type CleaningRule, keep, type RuleStep, unreadable } from "./cleaning-rule.ts";

/** behind a number with its unit: a mark and words without a figure, or a word that says it is all there is */
const behind =
  /^(.*\d\s*(?:g|kg|grams?|oz|lbs?|ml|cc|°?[cf]|days?|d)\.?)(?:\s*[,;:–-]\s*[a-z][a-z' ]*|\s+(?:total|net|in all|altogether))?[.!\s]*$/i;

/** behind a bare number: a mark, and words behind it that are no amount, no unit and nothing weighed along */
const apart = /^(.*\d)\s*(?:[,;:*!✓✔]+\s*|\s[-–—]+\s+)(\p{L}[\p{L}' ]*)?[.!*\s]*$/u;
const net = /^(.*\d\s*(?:g|kg|oz|lbs?)?\.?)[\s,(]+(?:net|nett|netto|neto)(?:\s+(?:weight|wt))?[.)\s]*$/i;

/** Words that change an amount, or may: units, numbers, things weighed along, "each". */
const amountWords = new Set(
  phrasesOf((words) =>
    [words.tare, words.each, words.tray, words.numbers.replaceAll(",", "|"), words.withWords].join("|"),
  )
    .concat("half double twice dozen halb doppelt demi doble doppio".split(" "))
    .flatMap((phrase) => phrase.split(" ")),
);
/** Words that say how good a harvest was, in the eight languages, from memory; beside those for a good tray. */
const praise = new Set(
  phrasesOf((words) => words.outcomes.good).concat("nice very wow hmm best super top huge big small schön".split(" ")),
);
/** "240g nice!", "240 g :)": a number with its unit, and nothing behind it but praise or marks */
const praised = /^(.*\d\s*(?:g|kg|grams?|oz|lbs?|ml|cc)\.?)\s+([^\d%/+*=~<>?()[\]]+)$/iu;
const isPraise = (remark: string): boolean => {
  const words = fold(remark)
    .replace(/[^\p{L} ]/gu, "")
    .trim();
  return words === "" || words.split(/ +/).every((word) => praise.has(word)) || praise.has(words);
};
const changesNothing = (remark: string): boolean =>
  fold(remark)
    .split(" ")
    .every((word) => !amountWords.has(word) && unitOfAnyKind(word, "mass") === undefined);

/** The cell without its remark; one that doubts the number flags it. */
const without = (text: string, remark: string): RuleStep =>
  isNotAll(remark, {}) || partsOf(remark).some((part) => doubtsTray(part) || doubtsAmount(part, {}))
    ? { kind: "rewrite", text, approximate: true, reason: "a remark behind the number doubts it" }
    : { kind: "rewrite", text, reason: "a remark behind the number, kept here only" };

/** "2nd 60", "then 60 g": a remark that ends in an amount of its own, and not in a day or a small number. */
function isAmountToo(remark: string): boolean {
  const [, word = "", number = "", unit = ""] =
    /(?:(\p{L}+)[\s.]*)?(?<![\d.,])(\d+(?:[.,]\d+)?)\s*(g|gr|grams?|kg|oz|ml|cc)?$/iu.exec(remark.trim()) ?? [];
  if (unitNamed(word, "days") !== undefined) return false;
  return number !== "" && (unit !== "" || Number.parseFloat(number) >= 10);
}

const withoutStop = (text: string): string => text.replace(/[.\s]+$/, "");

/** "150 g (14 Apr)", "210g on 4/14/26": an amount, and a day beside it */
const dated =
  /^(.*\d\s*(?:g|kg|grams?|oz|lbs?|ml|cc)?\.?)(?:\s*[([]\s*([^()[\]]+)[)\]]|\s+(?:on|am|le|el|il|op|em)\s+(\S.*))$/iu;
/** "14 Apr", "4/14/26"; "14/3" may be a fraction. */
const isDay = (text: string): boolean =>
  ["date", "ambiguous", "yearless"].includes(parseDate(text).kind) && !/^\d+\/\d+$/.test(text);

/** "310 g (wet towel)", "30 g, ok", "30 g total": a remark behind a number; it stays in the log. */
export const commentInCell: CleaningRule = {
  code: "comment-in-cell",
  kinds: "every kind",
  apply(text, { kind }) {
    const [, amount, inBrackets, behindWord] = dated.exec(text) ?? [];
    if (amount !== undefined && isDay((inBrackets ?? behindWord)!.trim())) return without(amount, "");
    const alone = net.exec(text) ?? apart.exec(text);
    if (alone !== null && changesNothing(alone[2] ?? "")) return without(alone[1]!, alone[2] ?? "");
    const [, praisedAmount, remark = ""] = praised.exec(text) ?? [];
    if (praisedAmount !== undefined && isPraise(remark)) return without(praisedAmount, "");
    const match = /^(.*\d.*?)\s*[([]\s*(\D[^()[\]]*)[)\]]$/.exec(text);
    const plain = match === null ? behind.exec(text) : null;
    if (plain !== null && withoutStop(plain[1]!) !== withoutStop(text))
      return without(plain[1]!, text.slice(plain[1]!.length));
    if (match === null || /^(?:g|kg|oz|lbs?|ml|cc|[cf]|°[cf]?|days?|d|%)$/i.test(match[2]!.trim())) {
      return match === null
        ? keep
        : { kind: "rewrite", text: `${match[1]} ${match[2]!.trim()}`, reason: "a unit in brackets" };
    }
    return isAmountToo(match[2]!) && (kind === "mass" || kind === "volume")
      ? unreadable(kind === "mass" ? addedUp : "one amount", "another amount in brackets behind the number")
      : without(match[1]!, match[2]!);
  },
};

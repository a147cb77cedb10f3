import { fold } from "../../records/words/fold.ts";
import { phrasesOf } from "../../records/words/languages.ts";
import { type CleaningRule, keep, unreadable } from "./cleaning-rule.ts";

const thing = "(?:trays?|bags?|blocks?|tubs?|boxes|box|bricks?)";
const counts: Record<string, number> = {
  two: 2,
  three: 3,
  four: 4,
  five: 5,
  six: 6,
  seven: 7,
  eight: 8,
  nine: 9,
  ten: 10,
};
const count = `(\\d+|${Object.keys(counts).join("|")})`;
const countFirst = new RegExp(
  `^${count}\\s*${thing}\\s*(?:together|total|combined|weighed|(?<each>at|@)|of|gave)?\\s*[:=,;-]?\\s*(?=[\\d~])(.+)$`,
  "i",
);
const countLast = new RegExp(
  `^(.*\\d.*?)\\s*(?:[(/,;]|for|from|over|between|across|of)\\s*(?:all\\s+)?${count}\\s*${thing}\\s*(?:together|total|combined)?\\)?$`,
  "i",
);

/** "40 (both)", "410 g together", "40 for both trays": of more trays than one. In the eight languages, from memory. */
const ofSeveral =
  /\d\s*\p{L}{0,5}\.?[\s,;([–-]+((?:\p{L}+\s+){0,2}?)(?:both|together|combined|pooled|shared|beide[rns]?|zusammen|(?:toutes )?les deux|ensemble|amb[oae]s|l[ao]s dos|junt[oa]s?|entramb[ei]|tutt[ei] e due|insieme|samen|ob(?:ie|a|ydwie)|razem)(?:\s+(\p{L}+))?[\s.!)\]]*$/iu;
const startsWithOne = (words: ReadonlyArray<string>, text = ""): boolean =>
  text.split(" ").some((word) => words.some((one) => word.startsWith(one)));
const trays = phrasesOf(({ tray }) => tray);
const flushes = phrasesOf((words) => words.flushes).filter((word) => word.length > 2);

/** Whether an amount is said to be of several trays; "310 (both flushes)" and "10 (both sides)" are of one. */
function isOfSeveral(text: string): boolean {
  const [found, before, thing] = ofSeveral.exec(text) ?? [];
  if (found === undefined) return false;
  return thing === undefined ? !startsWithOne(flushes, fold(before!)) : startsWithOne(trays, fold(thing));
}

/** "2 trays 310g": one number for several trays. It stays theirs together, because no tray's own part of it is known. */
export const pooledAmount: CleaningRule = {
  code: "pooled",
  kinds: ["mass", "volume"],
  apply(text, { read }) {
    const first = countFirst.exec(text);
    const last = first === null ? countLast.exec(text) : null;
    const typed = first?.[1] ?? last?.[2];
    const amount = first?.[3] ?? last?.[1];
    if (typed === undefined || amount === undefined)
      return isOfSeveral(text)
        ? unreadable("the weight of one tray", "one number for several trays, and which is not said")
        : keep;
    const trays = counts[typed.toLowerCase()] ?? Number(typed);
    const reading = read(amount.trim());
    if (reading.kind === "ambiguous") return { kind: "settle", reading, reason: "one number for several trays" };
    if ((reading.kind !== "value" && reading.kind !== "approximate") || trays < 1) {
      return unreadable(
        "a count of trays and one number, such as 2 trays 310 g",
        "looks like one number for several trays, but is not clear",
      );
    }
    const { unit, changes } = reading;
    // "3 bags at 85 g"
    const value = first?.groups?.each === undefined ? reading.value : trays * reading.value;
    return {
      kind: "settle",
      reading: { kind: "pool", trays, value, unit, changes },
      reason: "one number for several trays together",
    };
  },
};

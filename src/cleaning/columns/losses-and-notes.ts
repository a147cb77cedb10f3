import { isLoss, type Outcome } from "../../records/tray.ts";
import { fold } from "../../records/words/fold.ts";
import { saysNothing, wordsOf } from "../../records/words/header-words.ts";
import { phrasesOf } from "../../records/words/languages.ts";
import type { TrayWord } from "../../records/words/vocabulary.ts";
import { deniedByCompound, isLostWord, isSeenWord, isUnsure, phraseAt } from "../values/outcome-phrases.ts";
import { readOutcome } from "../values/outcome-words.ts";
import type { ColumnMeaning } from "./column-plan.ts";

const noteWords = ["note", "comment", "remark", "observation"];

/** Why a header of nothing but a word for a loss is taken for the outcome. */
export const lossWord = "a word for a loss";

// in the eight languages, from memory
const times = new Set("date day week tag woche jour semaine dia semana giorno settimana dag dzien tydzien".split(" "));
// "of which mouldy"
const ofWhich = new Set("which them davon dont cui waarvan".split(" "));
const besideLoss = new Set([...times, "reason", "cause"]);

/** Whether a header asks for a day or a week. */
export const asksForTime = (header: string): boolean => wordsOf(header).some((word) => times.has(word));

const trays = new Set(phrasesOf((words) => words.tray));

/** Whether a word beside one for a loss asks for its day or cause. */
const saysWhen = (word: string): boolean =>
  saysNothing(word) || ofWhich.has(word) || isSeenWord(word) || wordsOf(word).some((one) => besideLoss.has(one));

/** "No. contaminated" counts; "No contam" denies. */
const numbered = /^\s*(?:no\s*[.:#]|n[r°º]|#)/iu;

/** The loss that a header denies, and so asks for its absence: "Not contaminated", "Schimmelfrei", "sans moisissure"; undefined for any other. */
export function deniedLoss(header: string): Outcome | undefined {
  if (numbered.test(header)) return undefined;
  const found = readOutcome(header);
  if (found?.says !== "not lost" || !found.whole) return undefined;
  const words = fold(header).split(" ");
  const roles = words.map((word) => deniedByCompound(word) ?? phraseAt([word], 0)?.role);
  return (roles.find((role) => isLoss(role)) as Outcome | undefined) ?? "discarded";
}

/** A header that names nothing but a loss, its day or its cause: "Tossed on", "Thrown out", "Green mould seen". */
export function lossByName(header: string): ColumnMeaning[] {
  if (deniedLoss(header.replace("%", "")) !== undefined)
    return [{ field: "outcome", because: lossWord, rank: 1, unit: "" }];
  const words = fold(header).split(" ");
  // "% contaminated"; but "% loss" may be the weight that drying took
  if (words[0] === "%" && !words.some(isLostWord)) words.shift();
  let losses = 0;
  let others = 0;
  // "Lost on day" is no column of lost things; "Did it go green?" asks
  const asks = /\?\s*$/.test(header) || words.some((word) => wordsOf(word).some((one) => besideLoss.has(one)));
  for (let at = 0; at < words.length; ) {
    const phrase = phraseAt(words, at);
    const isOne = isLoss(phrase?.role as TrayWord) && (asks || !isUnsure(phrase!.phrase));
    if (isOne || isLostWord(words[at]!)) losses++;
    else if (saysWhen(words[at]!) || (asks && trays.has(words[at]!))) others++;
    else return [];
    at += phrase?.length ?? 1;
  }
  const because = others === 0 ? lossWord : "the day or cause of a loss";
  return losses > 0 ? [{ field: "outcome", because, rank: 1, unit: "" }] : [];
}

/** Why a header that numbers the looks at the trays is taken for notes. */
export const aCheck = "one of several checks";

// in the eight languages, from memory
const check =
  /^(?:wk|week|woche|kw|semaine|sem|semana|sett(?:imana)?|tydz(?:ien)?|check|visit|kontrolle|controle|control|controllo|kontrola) ?\d{1,3}$|^[ws] ?\d{1,2}$/;

/** A header that numbers a look at the trays: "Wk 3", "Woche 3", "Check 2". Its cells tell whether words stand in it. */
export const checkByName = (header: string): ColumnMeaning[] =>
  check.test(fold(header)) ? [{ field: "note", because: aCheck, rank: 1, unit: "" }] : [];

/** A header that names notes on something. */
export const notesByName = (header: string): ColumnMeaning[] =>
  wordsOf(header).some((word) => noteWords.includes(word))
    ? [{ field: "note", because: "notes by its name", rank: 1, unit: "" }]
    : [];

import { isLoss } from "../../records/tray.ts";
import { closestAmong, editsBetween } from "../../records/words/closest-word.ts";
import { fold } from "../../records/words/fold.ts";
import { languages, phrasesOf } from "../../records/words/languages.ts";
import type { TrayWord } from "../../records/words/vocabulary.ts";

/** Worse news first: a tray tossed because it was green is contaminated. */
export const worstWordFirst: ReadonlyArray<TrayWord> = [
  "contaminated",
  "failed",
  "discarded",
  "spent",
  "growing",
  "pending",
  "drying",
  "good",
];

/** What a phrase does in a sentence about a tray. */
export type PhraseRole = TrayWord | "negation" | "doubt";

const roles = new Map<string, PhraseRole>();
const beforeNegations = new Set(phrasesOf(({ negations }) => negations.before));

for (const { negations, doubt } of languages) {
  for (const phrase of negations.before.split("|").map(fold)) roles.set(phrase, "negation");
  for (const phrase of doubt.split("|").map(fold)) roles.set(phrase, "doubt");
}
for (const word of [...worstWordFirst].reverse()) {
  if (word === "good") continue;
  for (const phrase of phrasesOf(({ outcomes }) => outcomes[word])) roles.set(phrase, word);
}

const afterNegations = new Set(phrasesOf(({ negations }) => negations.after));
const seen = new Set(phrasesOf((words) => words.seen.replaceAll(" ", "|")));

/** Whether a phrase only denies a loss ("no mold", "schimmelfrei"), as its words by themselves already do. */
const deniesLoss = (phrase: string): boolean => {
  if (deniedByCompound(phrase) !== undefined) return true;
  const words = phrase.split(" ");
  const left = words.filter((word) => !beforeNegations.has(word) && !afterNegations.has(word));
  return left.length < words.length && left.some((word) => isLoss(roles.get(word)));
};

/** A loss that a compound denies ("schimmelfrei", "moldfree", "uncontaminated", "nieskażona"); undefined for any other word. */
export function deniedByCompound(word: string): TrayWord | undefined {
  const match = /^(.{4,}?)s?(?:frei\p{L}{0,2}|vrije?|free)$/u.exec(word) ?? /^(?:un|in|on|nie)(.{5,})$/u.exec(word);
  const role = match === null ? undefined : roles.get(match[1]!);
  return isLoss(role) ? (role as TrayWord) : undefined;
}

for (const phrase of phrasesOf(({ outcomes }) => outcomes.good)) {
  if (!roles.has(phrase) && !deniesLoss(phrase)) roles.set(phrase, "good");
}

const pickedPhrases = new Set(phrasesOf(({ picked }) => picked));
for (const phrase of pickedPhrases) if (!roles.has(phrase)) roles.set(phrase, "good");

const longest = Math.max(...[...roles.keys()].map((phrase) => phrase.split(" ").length));
const unsure = new Set(phrasesOf((words) => words.unsure));
const scopeEnds = new Set(phrasesOf((words) => words.scopeEnds));
const ors = new Set(phrasesOf((words) => words.ors));
const filling = new Set([
  ...phrasesOf((words) => words.filling.replaceAll(" ", "|")),
  ...phrasesOf((words) => words.joins),
  ..."a and but the is was it its by on in at of side corner corners edge edges top bottom bag tray day days early late slight slightly small big some little bit spot spots patch patches out away all again very then due to from with after before already now still black pink blue red orange yellow white brown grey gray new old growth any this one whole block".split(
    " ",
  ),
]);
const longWords: ReadonlyArray<string> = [...roles.keys()].filter(
  (phrase) => phrase.length >= 6 && !phrase.includes(" ") && worstWordFirst.includes(roles.get(phrase) as TrayWord),
);

/** The longest known phrase that begins at a place of a list of words. */
export function phraseAt(
  words: ReadonlyArray<string>,
  at: number,
): { role: PhraseRole; length: number; phrase: string } | undefined {
  for (let length = Math.min(longest, words.length - at); length > 0; length--) {
    const phrase = words.slice(at, at + length).join(" ");
    const role = roles.get(phrase);
    if (role !== undefined) return { role, length, phrase };
  }
  return undefined;
}

const closestLong = closestAmong(longWords, (phrase) => roles.get(phrase)!);
const likeLosses = new Set(phrasesOf((words) => words.likeLosses));

/**
 * The tray word that a misspelt one may have meant. It surely did where it is long and one letter off; a shorter one, or a
 * long one with two slips, may be a word of its own.
 */
export function misspeltWord(word: string): { role: TrayWord; sure: boolean } | undefined {
  if (word.length < 7 || likeLosses.has(word)) return undefined;
  const near = closestLong(word);
  if (near === undefined) return undefined;
  const role = roles.get(near) as TrayWord;
  const oneOff = editsBetween(word, near, 1) === 1;
  if (oneOff && word.length >= 9) return { role, sure: true };
  return isLoss(role) && (oneOff || word.length >= 11) ? { role, sure: false } : undefined;
}

// in the eight languages, from memory
const lostWords = new Set(
  "lost loss losses verlust verluste verloren ausfall ausfalle perte pertes perdu perdue perdus perdues perdida perdidas perdido perdidos perdita perdite perso persi persa perse verlies verliezen uitval strata straty stracone perda perdas".split(
    " ",
  ),
);

const untils = new Set("until till til bis jusqu hasta fino tot ate".split(" "));

/** Whether a folded word is one for what was lost, as headers and names of sheets say it. */
export const isLostWord = (word: string): boolean => lostWords.has(word);
export const isBeforeNegation = (phrase: string): boolean => beforeNegations.has(phrase);
/** Whether a word ends what was so before: "clean until day 20". */
export const isUntil = (word: string): boolean => untils.has(word);
export const isAfterNegation = (word: string): boolean => afterNegations.has(word);
export const isSeenWord = (word: string): boolean => seen.has(word);
export const isPicked = (phrase: string): boolean => pickedPhrases.has(phrase);
export const isUnsure = (phrase: string): boolean => unsure.has(phrase);
export const endsScope = (word: string): boolean => scopeEnds.has(word);
export const isOr = (word: string): boolean => ors.has(word);
export const isFilling = (word: string): boolean => filling.has(word) || ors.has(word) || scopeEnds.has(word);

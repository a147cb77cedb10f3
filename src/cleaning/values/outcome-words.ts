import { isLoss, type Outcome, outcomes } from "../../records/tray.ts";
import { fold } from "../../records/words/fold.ts";
import type { TrayWord } from "../../records/words/vocabulary.ts";
import {
  deniedByCompound,
  endsScope,
  isAfterNegation,
  isBeforeNegation,
  isFilling,
  isOr,
  isPicked,
  isSeenWord,
  isUnsure,
  isUntil,
  misspeltWord,
  phraseAt,
  worstWordFirst,
} from "./outcome-phrases.ts";

/** What words say of a tray: a word for it, or only that it was not lost ("mold free"). */
export type TraySaid = TrayWord | "not lost";

/** What a text says became of a tray. */
export interface OutcomeReading {
  says: TraySaid;
  /** typed with a question mark or a word of doubt */
  queried: boolean;
  /** says that it was good and that it was lost */
  contradictory: boolean;
  /** the text holds nothing but outcome words, numbers and filling words */
  whole: boolean;
  /** says that it was thrown out, with or without good words */
  thrownOut: boolean;
  /** says that it was picked */
  picked: boolean;
  /** a loss is named by a word that means nothing else in prose */
  sure: boolean;
  /** read through a misspelling */
  misspelt: boolean;
  /** the loss rests on a word that may as well be another one */
  perhaps: boolean;
}

/** Words a negation reaches over before it meets what it denies. */
const longestReach = 5;
const mostWords = 60;

interface Clause {
  words: string[];
  /** joined to the clause before by a comma in a list that an "or" ends */
  listed: boolean;
}

/** A text in clauses: a negation never reaches over a stop, a dash, a bracket, or a word such as "but". */
function clausesOf(text: string): Clause[] {
  const parts = text
    // "mould-free" is one word, wherever it stands
    .replace(/(\p{L}{4,})[-‐](free|frei\p{L}{0,2}|vrije?)(?!\p{L})/giu, "$1$2")
    .replace(/(\d)[.,](?=\d)/g, "$1")
    .replace(/\s[-–—]+\s|[.;!()[\]\n–—]+(?:\s|$)|[;()[\]\n]/g, " \ue000 ")
    .replace(/,/g, " \ue001 ")
    .split(/([\ue000\ue001])/);
  const clauses: Clause[] = [];
  let comma = false;
  for (const [index, part] of parts.entries()) {
    if (part === "\ue000" || part === "\ue001") {
      comma = part === "\ue001";
      continue;
    }
    const words = fold(part)
      .split(" ")
      .filter((word) => word !== "");
    if (words.length === 0) continue;
    const before = clauses.at(-1);
    // "contam - no": the answer is to what stands before it
    if (words.length === 1 && before !== undefined && isAfterNegation(words[0]!)) {
      before.words.push(words[0]!);
      continue;
    }
    const isList = comma && parts.slice(index).some((later) => fold(later).split(" ").some(isOr));
    clauses.push({ words, listed: isList });
    comma = false;
  }
  return clauses;
}

/** "12", or a day or week of the run: "d12", "wk3". */
const isNumberOrDay = (word: string): boolean => /^(?:d|day|w|wk|week)?\d+$/.test(word);

class Sentence {
  readonly found = new Set<TrayWord>();
  denied = false;
  unclear = false;
  whole = true;
  sure = false;
  picked = false;
  misspelt = false;
  perhaps = false;
  doubted = false;
  /** place behind the last negation word, in the running clause; below 0 when none holds */
  private negatedFrom = -1;

  read({ words, listed }: Clause): void {
    if (!listed) this.negatedFrom = -1;
    else if (this.negatedFrom >= 0) this.negatedFrom = 0;
    for (let at = 0; at < words.length; ) at += this.take(words, at);
  }

  /** Takes what stands at a place; returns how many words that was. */
  private take(words: ReadonlyArray<string>, at: number): number {
    const word = words[at]!;
    const found = phraseAt(words, at);
    if (found?.role === "negation" || (found !== undefined && deniesNext(words, at, found))) {
      this.negatedFrom = at + found.length;
      return found.length;
    }
    if (found?.role === "doubt") {
      this.doubted = true;
      return found.length;
    }
    if (found !== undefined)
      return found.length + this.say(found.role as TrayWord, found.phrase, words, at, found.length);
    if (deniedByCompound(word) !== undefined) {
      this.denied = true;
      return 1;
    }
    // "not only contaminated": no negation at all
    if (endsScope(word)) this.negatedFrom = -1;
    const meant = isFilling(word) || isNumberOrDay(word) ? undefined : misspeltWord(word);
    if (meant !== undefined) {
      this.misspelt = true;
      return 1 + this.say(meant.role, word, words, at, 1, meant.sure);
    }
    this.whole &&= isFilling(word) || isNumberOrDay(word);
    return 1;
  }

  /** Notes what a phrase says, denied or not; returns how many words behind it belonged to its negation. */
  private say(
    role: TrayWord,
    phrase: string,
    words: ReadonlyArray<string>,
    at: number,
    length: number,
    isCertain = true,
  ): number {
    const end = at + length;
    const behind = negationBehind(words, end);
    const before = this.negatedFrom >= 0 && at - this.negatedFrom <= longestReach;
    // "clean until day 20": good no longer
    if (role === "good" && isUntil(words[end] ?? "")) return 0;
    if (!before && behind === 0) {
      // "mold on one corner, still going": a loss that is none yet
      const goesOn = [...phrase.split(" "), words[at - 1] ?? ""].some(endsScope);
      if (role === "growing" && goesOn && [...this.found].some(isLoss)) this.doubted = true;
      this.found.add(role);
      if (isPicked(phrase)) this.picked = true;
      if (isLoss(role) && !isCertain) this.perhaps = true;
      else if (isLoss(role) && !isUnsure(phrase)) this.sure = true;
      return 0;
    }
    if (isLoss(role) || role === "spent") this.denied = true;
    else this.unclear = true;
    const next = words[end];
    const goesOn = next !== undefined && (isOr(next) || isFilling(next));
    this.negatedFrom = before && (goesOn || next === undefined) ? end : -1;
    return behind;
  }
}

/** "niente muffa": a word for nothing before a loss is no loss. */
const deniesNext = (words: ReadonlyArray<string>, at: number, { phrase, length }: { phrase: string; length: number }) =>
  isBeforeNegation(phrase) && isLoss(phraseAt(words, at + length)?.role);

/** Words of a negation that stands behind what it denies, at a clause's end: "mold free", "contam: none", "mold not seen". */
function negationBehind(words: ReadonlyArray<string>, end: number): number {
  const [next = "", ...rest] = words.slice(end);
  if (isAfterNegation(next) && rest.every(isSeenWord)) return words.length - end;
  const negation = phraseAt(words, end);
  if (negation?.role !== "negation") return 0;
  const left = words.slice(end + negation.length);
  return left.length > 0 && left.every(isSeenWord) ? words.length - end : 0;
}

/**
 * What a text says became of a tray, in a grower's words of eight languages; misspellings of long words are understood, and
 * a negation counts as far as it reaches.
 * @returns undefined when no word in it says anything of that
 * @example readOutcome("green mold?")?.says // "contaminated"
 * @example readOutcome("nicht kontaminiert, nur langsam")?.says // "not lost"
 */
export function readOutcome(text: string): OutcomeReading | undefined {
  const clauses = clausesOf(text);
  const count = clauses.reduce((sum, { words }) => sum + words.length, 0);
  if (count > mostWords) return undefined;
  const sentence = new Sentence();
  for (const clause of clauses) sentence.read(clause);
  const { found, denied, unclear, whole, sure, picked, misspelt, doubted } = sentence;
  const perhaps = sentence.perhaps && !sure;
  const worst = worstWordFirst.find((one) => found.has(one));
  if (worst === undefined && (!denied || unclear)) return undefined;
  // picked, then thrown away: spent
  const says: TraySaid =
    worst === undefined ? "not lost" : worst === "discarded" && found.has("good") ? "spent" : worst;
  return {
    says,
    queried: text.includes("?") || doubted || perhaps,
    contradictory: found.has("good") && (found.has("contaminated") || found.has("failed")),
    whole,
    thrownOut: found.has("discarded"),
    picked,
    sure,
    misspelt,
    perhaps,
  };
}

/** What a good cell of outcomes holds. */
export const outcomesExpected = "good, contaminated, failed, discarded or growing";

/** The outcomes in their canonical words. */
export const isOutcome = (text: string): text is Outcome =>
  text === "asked" || (outcomes as ReadonlyArray<string>).includes(text);

import { closestAmong } from "../../records/words/closest-word.ts";
import { perWords } from "../../records/words/per-words.ts";
import { plainName } from "./match-side-columns.ts";

/** A fixed list of answers and the words people use for each, separated by |. */
export type WordList<T extends string> = Readonly<Record<T, string>>;

const forWhat = new RegExp(`^(?:${perWords}|each|every|a|an|the|for|to|pour|para) `);
const article = /^(?:each|every|a|an|the) /;

/** Looks words up in a list of answers. */
export interface WordChoice<T extends string> {
  answers: ReadonlyArray<T>;
  /** the answer, and whether it was reached through a misspelling; undefined where the text is not among them */
  find(text: string): { answer: T; misspelt: boolean } | undefined;
}

/** Makes a look-up of a word list; case, accents, punctuation and small misspellings do not matter. */
export function wordChoice<T extends string>(list: WordList<T>): WordChoice<T> {
  const byWord = new Map<string, T>();
  const answers = Object.keys(list) as T[];
  for (const answer of answers) byWord.set(plainName(answer), answer);
  for (const answer of answers) {
    for (const word of list[answer].split("|").map(plainName)) {
      // a word of two languages for two things keeps its first
      if (word !== "" && !byWord.has(word)) byWord.set(word, answer);
    }
  }
  const closest = closestAmong([...byWord.keys()], (word) => byWord.get(word)!);
  return {
    answers,
    find(text) {
      // a number below nothing is no word: "-1" is not "1"
      if (/^\s*[-−]\s*\d/.test(text)) return undefined;
      const plain = plainName(text).replace(forWhat, "").replace(article, "");
      const exact = byWord.get(plain) ?? byWord.get(plainName(text));
      if (exact !== undefined) return { answer: exact, misspelt: false };
      // "tray / bag" is two known words, and no slip for "tray day"
      if (plain.split(" ").every((word) => byWord.has(word))) return undefined;
      const near = closest(plain);
      return near === undefined ? undefined : { answer: byWord.get(near)!, misspelt: true };
    },
  };
}

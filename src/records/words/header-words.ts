import { fold } from "./fold.ts";
import { languages, phrasesOf } from "./languages.ts";

/** Words of headers by the word they stand for, every word of its own kind among them. */
export const standsFor: ReadonlyMap<string, string> = synonyms();

function synonyms(): Map<string, string> {
  const words = new Map<string, string>();
  for (const { sameWords } of languages) {
    for (const [word, others] of Object.entries(sameWords)) {
      for (const other of [word, ...others.split("|").map(fold)]) if (!words.has(other)) words.set(other, word);
    }
  }
  return words;
}

const filling = new Set(phrasesOf((words) => words.filling.replaceAll(" ", "|")));
const formFilling = new Set(phrasesOf((words) => words.formFilling.replaceAll(" ", "|")));

/** The words of a header that carry meaning, synonyms folded, each once, sorted: order never matters. */
export function wordsOf(text: string): string[] {
  const all = fold(text.replace(/'s\b/g, "s").replace(/\bq\.\s?t/gi, "qt"))
    .split(" ")
    .filter((word) => word !== "")
    .map((word) => standsFor.get(word) ?? word);
  const telling = all.filter((word) => !filling.has(word));
  return [...new Set(telling.length > 0 ? telling : all)].sort();
}

/** Whether a folded phrase has words that carry no meaning of their own. */
export const hasFilling = (phrase: string): boolean => phrase.split(" ").some((word) => filling.has(word));

/** Whether a word carries no meaning of its own, in a header or in a form's question. */
export const saysNothing = (word: string): boolean => filling.has(word) || formFilling.has(word);

/** The words of a header without those that only ask, as forms do: "What was the dry weight?", "Any contamination?". */
export function wordsAsked(words: ReadonlyArray<string>): string[] {
  return words.filter((word) => !formFilling.has(word));
}

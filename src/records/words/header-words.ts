import { closestWord } from "./closest-word.ts";
import { fold } from "./fold.ts";
import { languages, phrasesOf } from "./languages.ts";

/** Everyday words of other columns, so that a misspelling is never pulled away from what it already is. */
const otherWords =
  "height width length depth diameter colour color price cost costs value humidity night evening morning recipe brand supplier lid shell size ratio ph filter fan speed score rating photo picture video link time start finish stop week month year customer order market sale sold buyer shop fresher dryer heat heater grader lead lot part partner count flash flesh state stage trial block control treatment group replicate rep random order seal seat sheet weather whether train brain drain stain stray strand chance bunch bench match catch patch hatch jam car star scare shells shield shaft".split(
    " ",
  );

const standsFor = new Map<string, string>();
for (const { sameWords } of languages) {
  for (const [word, others] of Object.entries(sameWords)) {
    for (const other of [word, ...others.split("|").map(fold)]) if (!standsFor.has(other)) standsFor.set(other, word);
  }
}

const filling = new Set(phrasesOf((words) => words.filling.replaceAll(" ", "|")));
const formFilling = new Set(phrasesOf((words) => words.formFilling.replaceAll(" ", "|")));

/** The words of a header that carry meaning, synonyms folded, each once, sorted: order never matters. */
export function wordsOf(text: string): string[] {
  const all = fold(text.replace(/'s\b/g, "s"))
    .split(" ")
    .filter((word) => word !== "")
    .map((word) => standsFor.get(word) ?? word);
  const telling = all.filter((word) => !filling.has(word));
  return [...new Set(telling.length > 0 ? telling : all)].sort();
}

/** Whether a folded phrase has words that carry no meaning of their own. */
export const hasFilling = (phrase: string): boolean => phrase.split(" ").some((word) => filling.has(word));

/** The words of a header without those that only ask, as forms do: "What was the dry weight?", "Any contamination?". */
export function wordsAsked(words: ReadonlyArray<string>): string[] {
  return words.filter((word) => !formFilling.has(word));
}

const known = new Map<string, string>(standsFor);
for (const word of otherWords) known.set(word, word);

/** Makes further words known, so that they are neither corrected nor missed by correction. */
export function learnWords(words: Iterable<string>): void {
  for (const word of words) if (!known.has(word)) known.set(word, word);
}

let listed: ReadonlyArray<string> = [];

/** Words with misspellings put right, where exactly one known word is near enough; undefined when nothing had to be. */
export function correctedWords(words: ReadonlyArray<string>): string[] | undefined {
  if (listed.length !== known.size) listed = [...known.keys()];
  let corrected = false;
  const result = words.map((word) => {
    if (known.has(word) || filling.has(word) || formFilling.has(word)) return word;
    const near = closestWord(word, listed, (candidate) => known.get(candidate)!);
    if (near === undefined) return word;
    corrected = true;
    return known.get(near)!;
  });
  return corrected ? [...new Set(result.filter((word) => !filling.has(word)))].sort() : undefined;
}

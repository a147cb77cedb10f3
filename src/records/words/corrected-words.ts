import { closestWord } from "./closest-word.ts";
import { fieldWords } from "./field-phrases.ts";
import { hasFilling, saysNothing, standsFor } from "./header-words.ts";

/** Everyday words of other columns, so that a misspelling is never pulled away from what it already is. */
const otherWords =
  "height width length depth diameter colour color price cost costs value humidity night evening morning recipe brand supplier lid shell size ratio ph filter fan speed score rating photo picture video link time start finish stop week month year customer order market sale sold buyer shop fresher dryer heat heater grader lead lot part partner count flash flesh state stage trial block control treatment group replicate rep random order seal seat sheet weather whether train brain drain stain stray strand chance bunch bench match catch patch hatch jam car star scare shells shield shaft".split(
    " ",
  );

/** Words that are neither corrected nor missed by correction, with what each stands for. */
const known = new Map([...standsFor, ...otherWords.map((word) => [word, word] as const)]);
for (const word of fieldWords) if (!known.has(word)) known.set(word, word);
const listed = [...known.keys()];

/** Words with misspellings put right, where exactly one known word is near enough; undefined when nothing had to be. */
export function correctedWords(words: ReadonlyArray<string>): string[] | undefined {
  let corrected = false;
  const result = words.map((word) => {
    if (known.has(word) || saysNothing(word)) return word;
    const near = closestWord(word, listed, (candidate) => known.get(candidate)!);
    if (near === undefined) return word;
    corrected = true;
    return known.get(near)!;
  });
  return corrected ? [...new Set(result.filter((word) => !hasFilling(word)))].sort() : undefined;
}

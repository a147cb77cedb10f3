import { closestAmong } from "./closest-word.ts";
import { fieldWords } from "./field-phrases.ts";
import { hasFilling, saysNothing, standsFor } from "./header-words.ts";

/** Everyday words of other columns, so that a misspelling is never pulled away from what it already is. */
const otherWords =
  "height width length depth diameter colour color price cost costs value humidity night evening morning recipe brand supplier lid shell size ratio ph filter fan speed score rating photo picture video link time start finish stop week month year customer order market sale sold buyer shop fresher dryer heat heater grader lead lot part partner count flash flesh state stage trial block control treatment group replicate rep random order seal seat sheet weather whether train brain drain stain stray strand chance bunch bench match catch patch hatch jam car star scare shells shield shaft packed packing placed planning plants plant plated inspected inspection infected infection inserted dropped chopped cooler charged supply supplies receipt timer matter clock clocks locks balls buckets flight humid trade trades legal local locals painting clear could serviced kicked pickled fried frying hydrate report charcoal sugar paste novel positive petition portion portions licked leading landing roads leads cargo grape grapes glass short stamp sport alone close belle bleak broke bread overture initial invented inverted invested intention insect insects infested objected debit gates mates hates rates eaten began begun semester faster taster split captures killed halls hills bulls coffer least feast beast cheat grant groan hires horse miller rogue arrow formal encase salve serve tends hammer trying crying waiter wafer wager".split(
    " ",
  );

/** Words that are neither corrected nor missed by correction, with what each stands for. */
const known = new Map([...standsFor, ...otherWords.map((word) => [word, word] as const)]);
for (const word of fieldWords) if (!known.has(word)) known.set(word, word);
const closest = closestAmong([...known.keys()], (word) => known.get(word)!);

/** Words with misspellings put right, where exactly one known word is near enough; undefined when nothing had to be. */
export function correctedWords(words: ReadonlyArray<string>): string[] | undefined {
  let corrected = false;
  const result = words.map((word) => {
    if (known.has(word) || saysNothing(word)) return word;
    const near = closest(word);
    if (near === undefined) return word;
    corrected = true;
    return known.get(near)!;
  });
  return corrected ? [...new Set(result.filter((word) => !hasFilling(word)))].sort() : undefined;
}

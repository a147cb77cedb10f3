import { dutch } from "./dutch.ts";
import { english } from "./english.ts";
import { fold } from "./fold.ts";
import { french } from "./french.ts";
import { german } from "./german.ts";
import { italian } from "./italian.ts";
import { polish } from "./polish.ts";
import { portuguese } from "./portuguese.ts";
import { spanish } from "./spanish.ts";
import type { MoneyWords, Vocabulary } from "./vocabulary.ts";

/** Every language's words, English first. */
export const languages: ReadonlyArray<Vocabulary> = [
  english,
  german,
  french,
  spanish,
  italian,
  dutch,
  polish,
  portuguese,
];

/** The folded phrases of one list in every language, each once. */
export function phrasesOf(list: (words: Vocabulary) => string): string[] {
  const all = languages.flatMap((words) => list(words).split("|").map(fold));
  return [...new Set(all.filter((phrase) => phrase !== ""))];
}

/** The folded words of lists whose entries have a place: months 0 to 11, ordinals 0 to 4, numbers 0 to 12. */
export function placesOf(list: (words: Vocabulary) => string): ReadonlyMap<string, number> {
  const places = new Map<string, number>();
  for (const words of languages) {
    for (const [place, entry] of list(words).split("|").entries()) {
      for (const word of entry.split(",")) if (!places.has(fold(word))) places.set(fold(word), place);
    }
  }
  return places;
}

/**
 * Lists of English words for the columns or choices of a money sheet, with those of every other language behind them.
 * @example withMoneyWords("forms", { fresh: "raw" }).fresh.startsWith("raw|frisch") // true
 */
export function withMoneyWords<K extends string>(
  list: keyof MoneyWords,
  english: Readonly<Record<K, string>>,
): Readonly<Record<K, string>> {
  const others = languages.map(({ money }): Readonly<Partial<Record<string, string>>> => money[list]);
  const entries = (Object.entries(english) as [K, string][]).map(([key, own]) => {
    const words = [own, ...others.map((other) => other[key] ?? "")];
    return [key, words.filter((part) => part !== "").join("|")] as const;
  });
  return Object.fromEntries(entries) as Readonly<Record<K, string>>;
}

import { type HarvestFieldKey, harvestFields } from "../harvest-field.ts";
import { fold } from "./fold.ts";
import { hasFilling, wordsOf } from "./header-words.ts";
import { languages } from "./languages.ts";

/** A field a phrase may mean. */
export interface PhraseMeaning {
  field: HarvestFieldKey;
  /** said too little to be sure, taken only where nothing better claims the field */
  weak: boolean;
}

const meanings = new Map<string, PhraseMeaning[]>();
const onlyExact: ReadonlySet<HarvestFieldKey> = new Set(["operator", "trays_in_pool"]);
/** phrases with small words in them that decide: "inoculated by" is a person, "inoculated" a day */
const exact = new Map<string, PhraseMeaning[]>();

const inPhrases = new Set<string>();
const inSetUp = new Set<string>();
const ends: ReadonlySet<HarvestFieldKey> = new Set(["outcome", "note", "fresh_g", "dry_g"]);
/** Every word of a phrase that names a field. */
export const fieldWords: ReadonlySet<string> = inPhrases;

function learn(list: Map<string, PhraseMeaning[]>, phrase: string, field: HarvestFieldKey, weak: boolean): void {
  const known = list.get(phrase) ?? [];
  const before = known.find((meaning) => meaning.field === field);
  if (before === undefined) known.push({ field, weak });
  else if (!weak) before.weak = false;
  list.set(phrase, known);
}

for (const { fields } of languages) {
  for (const { key: field } of harvestFields) {
    for (const typed of fields[field].split("|")) {
      if (typed === "") continue;
      const weak = typed.startsWith("?");
      const phrase = fold(typed.replace(/^[?=]/, ""));
      const words = wordsOf(phrase);
      for (const word of words) {
        inPhrases.add(word);
        if (!ends.has(field)) inSetUp.add(word);
      }
      const isExact = typed.startsWith("=") || (onlyExact.has(field) && (words.length === 1 || hasFilling(phrase)));
      if (isExact || (hasFilling(phrase) && words.length > 0)) learn(exact, phrase, field, weak);
      if (!isExact) learn(meanings, words.join(" "), field, weak);
    }
  }
}

/** Whether a folded word names something of how a tray is set up or kept: a shelf, a jar, a day. */
export const saysOfSetUp = (word: string): boolean => wordsOf(word).every((one) => inSetUp.has(one));

/** The fields that a header's words may mean, as given by `wordsOf`; empty when nobody is known to write them. */
export const meaningsOf = (words: ReadonlyArray<string>): ReadonlyArray<PhraseMeaning> =>
  meanings.get(words.join(" ")) ?? [];

/** The fields that both of two phrases mean which make up the words between them: "liquid culture" and "injected". */
export function meaningsOfTwo(words: ReadonlyArray<string>): PhraseMeaning[] {
  if (words.length < 3 || words.length > mostWords) return [];
  const found = new Map<HarvestFieldKey, PhraseMeaning>();
  for (let mask = 1; mask < 1 << (words.length - 1); mask++) {
    const others = meaningsOf(words.filter((_, at) => (mask >> at) % 2 === 0));
    for (const one of others.length === 0 ? [] : meaningsOf(words.filter((_, at) => (mask >> at) % 2 === 1)))
      if (others.some(({ field }) => field === one.field)) found.set(one.field, { field: one.field, weak: true });
  }
  return [...found.values()];
}
/** Longer headers are sentences. */
const mostWords = 6;

/** The fields that a header may mean word for word, small words included. */
export const meaningsOfPhrase = (header: string): ReadonlyArray<PhraseMeaning> => exact.get(fold(header)) ?? [];

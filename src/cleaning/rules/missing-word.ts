import { languages } from "../../records/words/languages.ts";
import type { MissingWordKind } from "../../records/words/vocabulary.ts";
import type { Missing } from "../values/quantity-reading.ts";
import { type CleaningRule, keep } from "./cleaning-rule.ts";

const dashes = "-|--|---|–|—|.|..|...|…|/|_|\\|*";
const questionMarks = "?|??|???";
const kinds: ReadonlyArray<MissingWordKind> = ["not applicable", "unknown", "not weighed"];

const unaccented = (text: string): string => text.normalize("NFKD").replace(/\p{M}/gu, "").replaceAll("ł", "l");

const howMissing = new Map<string, Missing>();
for (const dash of dashes.split("|")) howMissing.set(dash, "dash");
for (const mark of questionMarks.split("|")) howMissing.set(mark, "unknown");
for (const { missing } of languages) {
  for (const how of kinds) {
    for (const word of missing[how].toLowerCase().split("|")) {
      for (const spelling of [word, unaccented(word)]) if (!howMissing.has(spelling)) howMissing.set(spelling, how);
    }
  }
}

const reasons: Record<Missing, string> = {
  blank: "an empty cell: not known, which is not 0",
  dash: "a dash: nothing recorded, which is not 0",
  "not applicable": "said not to apply, which is not 0",
  unknown: "said not to be known",
  "not weighed": "said not to have been measured",
};

const longest = Math.max(...[...howMissing.keys()].map((word) => word.length));

/** How a cell says that it holds nothing; undefined when it holds something. Case and outer spaces do not matter. */
export function missingWord(text: string): Missing | undefined {
  const word = text.trim();
  if (word === "") return "blank";
  return word.length > longest ? undefined : howMissing.get(word.toLowerCase());
}

/** The reason given for a way of being missing. */
export const whyMissing = (how: Missing): string => reasons[how];

/** Blank, dash, n/a, "not weighed": nothing to read, each for its own reason, and none of them 0. */
export const missingValue: CleaningRule = {
  code: "missing-word",
  kinds: "every kind",
  apply(text) {
    const how = missingWord(text);
    if (how === undefined) return keep;
    return { kind: "settle", reading: { kind: "missing", how, changes: [] }, reason: reasons[how] };
  },
};

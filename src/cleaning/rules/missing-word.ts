import type { Missing } from "../values/quantity-reading.ts";
import { type CleaningRule, keep } from "./cleaning-rule.ts";

const words: ReadonlyArray<readonly [Missing, string]> = [
  ["dash", "-|--|---|–|—|.|/|_|\\|*"],
  ["not applicable", "n/a|na|n.a.|n.a|n\\a|not applicable|does not apply|entfällt|s/o"],
  [
    "unknown",
    "?|??|???|unknown|unk|don't know|dont know|dunno|dk|no idea|not known|not sure|unsure|tbd|tbc|null|nan|nil data|missing|no data|(blank)|blank|empty|undefined|unbekannt|inconnu|desconocido",
  ],
  [
    "not weighed",
    "not weighed|unweighed|nw|n.w.|forgot|forgot to weigh|forgot to measure|didn't weigh|didnt weigh|not measured|not recorded|not taken|nr|n.r.|n/r|no record|not noted|not checked|not counted|scale broke|nicht gewogen",
  ],
];

const howMissing = new Map<string, Missing>(
  words.flatMap(([how, list]) => list.split("|").map((word): [string, Missing] => [word, how])),
);

const reasons: Record<Missing, string> = {
  blank: "an empty cell: not known, which is not 0",
  dash: "a dash: nothing recorded, which is not 0",
  "not applicable": "said not to apply, which is not 0",
  unknown: "said not to be known",
  "not weighed": "said not to have been measured",
};

/** How a cell says that it holds nothing; undefined when it holds something. Case and outer spaces do not matter. */
export function missingWord(text: string): Missing | undefined {
  const word = text.trim().toLowerCase();
  return word === "" ? "blank" : howMissing.get(word);
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

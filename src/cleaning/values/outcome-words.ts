import type { Outcome } from "../../records/tray.ts";
import { closestWord } from "../../records/words/closest-word.ts";

/** What a text says became of a tray. */
export interface OutcomeReading {
  outcome: Outcome;
  /** typed with a question mark, or saying two things at once */
  queried: boolean;
  /** the text holds nothing but outcome words, numbers and filling words */
  whole: boolean;
  /** read through a misspelling */
  misspelt: boolean;
}

const words: ReadonlyArray<readonly [Outcome, string]> = [
  [
    "good",
    "good|ok|okay|okey|fine|success|successful|harvested|picked|done|complete|completed|finished|healthy|clean|great|excellent|perfect|yes|normal|not contaminated|no contamination|no contam|no mold|no mould|no issues|all good|✓|✔|gut|bien|bon|buono|goed",
  ],
  [
    "contaminated",
    "contam|contaminated|contamination|contaminate|contams|contamed|cont|contaminado|contaminée|kontaminiert|mold|mould|molds|moulds|moldy|mouldy|green|trich|trichoderma|bacterial|bacteria|cobweb|dactylium|infected|infection|sour|wet rot|wet spot|rot|rotten|aspergillus|penicillium|neurospora|lipstick|blotch|schimmel|moisi|moho|muffa",
  ],
  [
    "failed",
    "fail|failed|failure|no growth|did not grow|didn t grow|did not colonise|did not colonize|didn t colonise|didn t colonize|never colonised|never colonized|no colonisation|no colonization|no pins|no fruit|no fruits|no yield|no harvest|aborted|abort|aborts|dead|died|stalled|stall|dud|barren|did not take|didn t take|nothing grew",
  ],
  [
    "discarded",
    "discard|discarded|tossed|toss|threw out|thrown out|thrown away|threw away|binned|bin|trashed|trash|dumped|composted|compost|scrapped|culled|dropped|broken|broke|spilled|spilt|torn|destroyed|disposed|chucked|weggeworfen|jeté",
  ],
  [
    "growing",
    "growing|still growing|in progress|inprogress|colonising|colonizing|incubating|incubation|fruiting|pinning|pins|ongoing|on going|waiting|pending|not yet|active|started|still going|wip|running|not ready|not done|not harvested|not harvested yet|to come|open|wächst|en cours",
  ],
];

/** Worse news first: a tray tossed because it was green is contaminated. */
const severity: ReadonlyArray<Outcome> = ["contaminated", "failed", "discarded", "growing", "good"];

const byPhrase = new Map<string, Outcome>();
let longestPhrase = 1;
for (const [outcome, list] of words) {
  for (const phrase of list.split("|")) {
    byPhrase.set(phrase, outcome);
    longestPhrase = Math.max(longestPhrase, phrase.split(" ").length);
  }
}
const longWords: ReadonlyArray<string> = [...byPhrase.keys()].filter(
  (phrase) => phrase.length >= 6 && !phrase.includes(" "),
);

const filling = new Set(
  "a and but the is was it its by on in at of side corner corners edge edges top bottom bag tray day days early late slight slightly small big some little bit spot spots patch patches out away all again very then due to from with after before already now still black pink blue red orange yellow white brown grey gray new old growth".split(
    " ",
  ),
);
const negations = new Set(["no", "not", "without", "never", "zero", "kein", "sans", "sin"]);

/** The outcome of a single misspelt word, where exactly one outcome lies near enough. */
function nearestOutcome(word: string): Outcome | undefined {
  const near = closestWord(word, longWords, (phrase) => byPhrase.get(phrase)!);
  return near === undefined ? undefined : byPhrase.get(near);
}

/**
 * What a text says became of a tray, in a grower's words; misspellings of long words are understood.
 * @returns undefined when no outcome word is in it
 * @example readOutcome("green mold?") // { outcome: "contaminated", queried: true, whole: true, misspelt: false }
 */
export function readOutcome(text: string): OutcomeReading | undefined {
  const tokens = text
    .toLowerCase()
    .split(/[^\p{L}\p{N}✓✔]+/u)
    .filter((token) => token !== "");
  if (tokens.length === 0 || tokens.length > 40) return undefined;
  const found = new Set<Outcome>();
  let whole = true;
  let misspelt = false;
  for (let at = 0; at < tokens.length; ) {
    let length = Math.min(longestPhrase, tokens.length - at);
    let outcome: Outcome | undefined;
    for (; length > 0; length--) {
      outcome = byPhrase.get(tokens.slice(at, at + length).join(" "));
      if (outcome !== undefined) break;
    }
    const token = tokens[at]!;
    if (outcome === undefined) {
      outcome = nearestOutcome(token);
      if (outcome !== undefined) misspelt = true;
      length = 1;
    }
    if (outcome === undefined) {
      whole &&= filling.has(token) || negations.has(token) || /^\d+$/.test(token);
    } else {
      const negated = at > 0 && negations.has(tokens[at - 1]!);
      if (negated && outcome === "good") outcome = "failed";
      else if (negated && outcome === "contaminated") outcome = "good";
      found.add(outcome);
    }
    at += length;
  }
  const outcome = severity.find((one) => found.has(one));
  if (outcome === undefined) return undefined;
  const bad = found.has("contaminated") || found.has("failed");
  const queried = text.includes("?") || (found.has("good") && bad) || tokens.includes("maybe");
  return { outcome, queried, whole, misspelt };
}

/** The outcomes in their canonical words. */
export const isOutcome = (text: string): text is Outcome => (severity as ReadonlyArray<string>).includes(text);

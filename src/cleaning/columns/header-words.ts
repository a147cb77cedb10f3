import { closestWord } from "../values/closest-word.ts";

/** Words that mean the same in a header, the first one standing for all. */
const sameWords: ReadonlyArray<string> = [
  "weight wt wgt wts weights mass weighed weighing wght gewicht poids peso",
  "temperature temp temps tmp temperatures temperatur",
  "number no nr num nos # id ids code label name ref",
  "fresh freshly frisch frais fresco",
  "dry dried drying dehydrated trocken sec seco",
  "wet moist hydrated",
  "inoculum inoculant",
  "inoculated inoc inoculation inoculate inocd inoculating innoculated innoculation innoc impf",
  "culture cultures",
  "colonised colonized colonisation colonization colonise colonize colonising colonizing coloniz colonis col colon colonizat",
  "fruiting fruit fruited fruits fr",
  "harvest harvested harv harvesting hvst harvests",
  "picked pick picking cropped crop",
  "incubation incub incubating incubate incubated inc incubator",
  "substrate sub subs substr substrates medium media",
  "supplement supp suppl supps supplements supplementation supplemented additive additives amendment",
  "moisture moist%",
  "generation gen gens",
  "transfer transfers subculture subcultures",
  "position pos positions spot place slot",
  "container vessel containers",
  "cooker pc cookers canner",
  "steriliser sterilizer sterilisation sterilization sterilised sterilized autoclave autoclaved steri retort",
  "volume vol volumes",
  "amount amt qty quantity",
  "hour hours hrs",
  "liquid liq",
  "tray trays",
  "bag bags",
  "block blocks",
  "flush flushes flsh break",
  "outcome outcomes",
  "result results",
  "status state",
  "grade grades quality",
  "note notes",
  "comment comments",
  "remark remarks",
  "operator operators",
  "shelf shelves",
  "chamber chambers",
  "strain strains",
  "species specie",
  "batch batches",
  "load loads",
  "jar jars",
  "date datum fecha dates",
  "added add addition extra additional",
  "water",
  "first 1st",
  "second 2nd",
  "third 3rd",
];

/** Words that carry no meaning of their own in a header. */
const filling = new Set(
  "the of per a an in at for to from when was is each my our it this with and by on went".split(" "),
);

/** Everyday words of other columns, so that a misspelling is never pulled away from what it already is. */
const otherWords =
  "height width length depth diameter colour color price cost costs value humidity night evening morning recipe brand supplier lid shell size ratio ph filter fan speed score rating photo picture video link time start finish stop week month year customer order market sale sold buyer shop fresher dryer heat heater grader lead lot part partner count flash flesh state stage trial block control treatment group replicate rep random order seal seat sheet weather whether train brain drain stain stray strand chance bunch bench match catch patch hatch jam car star scare shells shield shaft".split(
    " ",
  );

const standsFor = new Map<string, string>();
for (const line of sameWords) {
  const [first, ...others] = line.split(" ") as [string, ...string[]];
  for (const word of [first, ...others]) standsFor.set(word, first);
}

/** Letters without their accents, in lower case; points, slashes and underscores become spaces. */
const plain = (text: string): string =>
  text
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/[#№]/g, " # ")
    .replace(/'s\b/g, "s")
    .replace(/[^\p{L}\p{N}#%]+/gu, " ")
    .trim();

/** The words of a header that carry meaning, synonyms folded, each once, sorted: order never matters. */
export function wordsOf(text: string): string[] {
  const all = plain(text)
    .split(" ")
    .filter((word) => word !== "")
    .map((word) => standsFor.get(word) ?? word);
  const telling = all.filter((word) => !filling.has(word));
  return [...new Set(telling.length > 0 ? telling : all)].sort();
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
    if (known.has(word) || filling.has(word)) return word;
    const near = closestWord(word, listed, (candidate) => known.get(candidate)!);
    if (near === undefined) return word;
    corrected = true;
    return known.get(near)!;
  });
  return corrected ? [...new Set(result.filter((word) => !filling.has(word)))].sort() : undefined;
}

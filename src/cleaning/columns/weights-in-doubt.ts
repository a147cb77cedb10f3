import { type HarvestFieldKey, isHarvestFieldKey, isWeightField } from "../../records/harvest-field.ts";
import type { RemarksSay } from "../../records/sheet.ts";
import { flushInHeader } from "../../records/words/flush-words.ts";
import { wordsOf } from "../../records/words/header-words.ts";
import { summaryKind } from "../../records/words/summary-label.ts";
import { containerAndMore, includesContainer, namesContainer } from "../rules/container-included.ts";
import type { ColumnDoubt, ColumnMeaning, ColumnPin } from "./column-plan.ts";
import type { ColumnProfile } from "./column-profile.ts";
import { headerParts } from "./header-unit.ts";
import { aNumber, has, meaningsOfHeader, saysNoState } from "./match-columns.ts";

const gross = new Set(["gross", "brutto", "bruto", "lordo", "brut"]);

/**
 * The weight that a header speaks of with something weighed along: "Fresh incl. tray (g)", "gross weight".
 * @param isOnly whether no other column is a fresh weight, so that a bare "Gross" or "With box" stands for it
 */
export function grossWeight(name: string, isOnly: boolean): HarvestFieldKey | undefined {
  if (isHarvestFieldKey(name) || !(includesContainer(name) || containerAndMore(name))) return undefined;
  const words = wordsOf(name);
  if (words.includes("dry")) return "dry_g";
  const speaks = ["fresh", "wet", "weight", "harvest", "picked", "mushroom", "mushrooms"].some((word) =>
    words.includes(word),
  );
  const isBare = words.some((word) => gross.has(word)) || meaningsOfHeader(name).length === 0;
  return speaks || (isOnly && isBare) ? "fresh_g" : undefined;
}

const remarked: Readonly<Record<NonNullable<RemarksSay["weights"]>["says"], string>> = {
  container: "something was weighed along",
  "several trays": "each is the weight of several trays",
  scale: "the scale was wrong",
  "dry weights": "they are dry, and their name does not say so",
};
const isNamedFresh = (name: string): boolean => wordsOf(name).some((word) => word === "fresh" || word === "wet");

/** Weights of the harvest of which a line beside the table says that they are others are asked about. */
export function setRemarkedAside(
  header: ReadonlyArray<string>,
  options: ColumnMeaning[][],
  pinned: ReadonlyArray<ColumnPin | undefined>,
  doubts: Map<number, ColumnDoubt>,
  remark: NonNullable<RemarksSay["weights"]>,
): void {
  options.forEach((meanings, index) => {
    const weight = meanings.find((one) => isWeight(one));
    if (weight === undefined || pinned[index] !== undefined) return;
    const { says, text: raw } = remark;
    if (says === "dry weights" && (isNamedFresh(header[index]!) || options.some((others) => has(others, "dry_g"))))
      return;
    const reason = `a line beside the table says of its weights that ${remarked[says]}, so they are not read`;
    doubts.set(index, {
      kind: "weights",
      field: says === "dry weights" ? "dry_g" : weight.field,
      rule: "weights-by-remark",
      reason,
      raw,
    });
    options[index] = [];
  });
}

const isWeight = ({ field }: ColumnMeaning): boolean => isWeightField(field);

/** Columns that could all be one field: none of them is read, and which is the one is asked. */
export function askWhich(
  field: HarvestFieldKey,
  columns: number[],
  options: ColumnMeaning[][],
  doubts: Map<number, ColumnDoubt>,
): void {
  for (const column of columns) {
    doubts.set(column, { kind: "one field twice", field, columns });
    options[column] = [];
  }
}

const weighedAlong = "the name says that something was weighed along, and what it weighs by itself is not said";
/** "Fresh (x 10 g)", "Dry (in 100 g)", "Dry (100 g sample)", "Yield (1-5)", "Est. dry g": numbers that are no plain weights. */
const otherThanGrams =
  /(?:(?<!\p{L})x|[×*÷])\s*\d[\d.,]*\s*(?:m?k?g|oz|lb)?\b|(?:\bin|[([:,=])\s*\d[\d.,]*\s*(?:m?k?g|gr|grams?|oz|lb)\b\s*(?:$|[)\]]|\p{L}*\s*(?:sample|probe|échantillon|muestra|campione|monster|prób|amostra))|\b(?:from|of|aus|von|de|pour|su|z|van)\s*\d[\d.,]*\s*k?g\b|\b(?:log|rank|score|index|est|estim\p{L}*|predicted|projected|geschätzt\p{L}*|stimat[oi]|geschat|szac\p{L}*)\b|[([]\s*\d{1,3}\s*[-–]\s*\d{1,3}\s*[)\]]/iu;
const otherFlush = "another column of flushes is not understood, and may be a sum with this one in it";
const notPlain = "by its name its numbers are not plain grams or ounces, so what they weigh is not sure";

/** Words behind the name of a second try at the same weights, in the eight languages, from memory. */
const revised =
  /[\s([]*(?<!\p{L})(?:corrected|correction|revised|adjusted|fixed|rechecked|reweighed|new|korrigiert|korr|neu|corrigée?s?|corregid[oa]|corrett[oa]|gecorrigeerd|poprawion[aey]|corrigid[oa])(?!\p{L})\.?[)\]]*/iu;

/** "Fresh g (corrected)" beside "Fresh g": which of the two counts, cell by cell, is asked. */
export function setRevisedAside(
  header: ReadonlyArray<string>,
  options: ColumnMeaning[][],
  pinned: ReadonlyArray<ColumnPin | undefined>,
  doubts: Map<number, ColumnDoubt>,
): void {
  header.forEach((name, index) => {
    if (pinned[index] !== undefined || options[index]!.length > 0 || !revised.test(name)) return;
    // "Fresh g corrected on 4 May", too
    const without = [name.replace(revised, " "), name.split(revised)[0]!];
    const meant = without.flatMap((rest) => meaningsOfHeader(rest.trim())).find(isWeight);
    const first = options.findIndex((meanings) =>
      meanings.some(({ field, flush }) => field === meant?.field && flush === meant.flush),
    );
    if (meant === undefined || first < 0 || pinned[first] !== undefined) return;
    askWhich(meant.field, [first, index], options, doubts);
  });
}

/** Columns of weights with a container are asked about; what a container weighs is no weight of the harvest. */
export function setGrossAside(
  header: ReadonlyArray<string>,
  options: ColumnMeaning[][],
  pinned: ReadonlyArray<ColumnPin | undefined>,
  doubts: Map<number, ColumnDoubt>,
): void {
  const hasFresh = options.some((meanings) => has(meanings, "fresh_g"));
  const ofFlush = options.map((meanings) => meanings.some((one) => one.flush !== undefined && isWeight(one)));
  const isOneFlush = ofFlush.filter(Boolean).length === 1;
  const hasSums = header.some((name, index) => {
    const { name: bare, units } = headerParts(name);
    const isUnread = options[index]!.length === 0 && pinned[index] === undefined && flushInHeader(name) !== undefined;
    return isUnread && units.some(({ kind }) => kind === "mass") && (isOneFlush || summaryKind(bare) !== "sum");
  });
  header.forEach((name, index) => {
    if (pinned[index] !== undefined) return;
    if (hasSums && ofFlush[index]) {
      doubts.set(index, { kind: "weights", field: "fresh_g", rule: "no-plain-weight", reason: otherFlush });
      options[index] = [];
      return;
    }
    const field = grossWeight(name, !hasFresh);
    // what it weighs without what it lay in stands beside it
    const isNet = (other: ColumnMeaning): boolean =>
      other.field === field && other.flush === flushInHeader(name)?.flush;
    const isOther = (own: string): boolean => !namesContainer(own) && grossWeight(own, false) === undefined;
    if (header.some((own, at) => at !== index && isOther(own) && options[at]!.some(isNet))) {
      options[index] = [];
      return;
    }
    const other = otherThanGrams.test(name) ? options[index]!.find((one) => isWeight(one)) : undefined;
    if (field !== undefined)
      doubts.set(index, { kind: "weights", field, rule: "gross-weight-column", reason: weighedAlong });
    else if (other !== undefined)
      doubts.set(index, { kind: "weights", field: other.field, rule: "no-plain-weight", reason: notPlain });
    else return;
    options[index] = [];
  });
  if (doubts.size === 0) return;
  // "Tray weight" beside "Weight with tray" is what the tray weighs
  header.forEach((name, index) => {
    if (pinned[index] === undefined && has(options[index]!, "fresh_g") && namesContainer(name)) options[index] = [];
  });
}

/** Numbers within this share of the larger are of one thing weighed twice. Common practice, no source. */
const weighedTwice = 0.15;

/** What is left of mushrooms once they are dried, as a share of their weight, from and to. Common practice, no source. */
const driedTo = [0.05, 0.17] as const;

/**
 * Asks about "Dry 1", "Dry 2" whose weights are the same but for a little: weighed twice, where two flushes differ; and about
 * "Weight 1", "Weight 2" of which the second is what drying leaves of the first.
 */
export function setTwiceWeighedAside(
  options: ColumnMeaning[][],
  profiles: ReadonlyMap<number, ColumnProfile>,
  doubts: Map<number, ColumnDoubt>,
): void {
  for (const field of ["fresh_g", "dry_g"] as const) {
    const columns = options.flatMap(([one], index) => (one?.field === field && one.because === aNumber ? [index] : []));
    const [first = [], second = []] = columns.map((index) => profiles.get(index)?.start ?? []);
    const pairs = first.flatMap((one, row) => (one > 0 && second[row]! > 0 ? [[one, second[row]!]] : []));
    const near = pairs.filter(([a, b]) => Math.abs(a! - b!) <= weighedTwice * Math.max(a!, b!));
    if (near.length > 0 && 2 * near.length >= pairs.length) askWhich(field, columns, options, doubts);
    const dried = pairs.filter(([a, b]) => b! >= driedTo[0] * a! && b! <= driedTo[1] * a!);
    if (2 * dried.length <= pairs.length || columns.some((index) => options[index]![0]?.rank !== 1)) continue;
    for (const index of columns) {
      doubts.set(index, { kind: "several fields", fields: ["fresh_g", "dry_g"] });
      options[index] = [];
    }
  }
}

/** A "Yield" of so many g may be a dried one; less is in another unit, and more is fresh. Common practice, no source. */
const dryReach = [1, 60] as const;

/** Asks whether "Yield" or flushes are fresh or dry where no column says which and all are as small as dried ones. */
export function setStatelessAside(
  options: ColumnMeaning[][],
  profiles: ReadonlyMap<number, ColumnProfile>,
  doubts: Map<number, ColumnDoubt>,
): void {
  if (options.some((meanings) => has(meanings, "dry_g"))) return;
  const columns = options.flatMap(([one], index) => (one !== undefined && saysNoState(one) ? [index] : []));
  const areSmall = columns.every((index) => {
    const numbers = (profiles.get(index)?.start ?? []).filter((number) => number > 0);
    return 2 * numbers.filter((number) => number >= dryReach[0] && number < dryReach[1]).length > numbers.length;
  });
  if (!areSmall) return;
  for (const index of columns) {
    doubts.set(index, { kind: "several fields", fields: ["fresh_g", "dry_g"] });
    options[index] = [];
  }
}

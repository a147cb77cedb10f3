import { addTo } from "../../records/grouped.ts";
import { type HarvestFieldKey, harvestField, isWeightField } from "../../records/harvest-field.ts";
import type { RemarksSay } from "../../records/sheet.ts";
import { flushInHeader } from "../../records/words/flush-words.ts";
import { wordsOf } from "../../records/words/header-words.ts";
import { summaryKind } from "../../records/words/summary-label.ts";
import { byCells, needsCells, nothingKnown } from "./by-cells.ts";
import type { ColumnDoubt, ColumnMeaning, ColumnPin } from "./column-plan.ts";
import type { ColumnProfile } from "./column-profile.ts";
import { setFurtherAside } from "./further-weights.ts";
import { headerParts } from "./header-unit.ts";
import { aMean, aNumber, aUnitAlone, has, isHarvestWeight, meaningsOfHeader, saysNoState } from "./match-columns.ts";
import {
  setGrossAside,
  setRemarkedAside,
  setRevisedAside,
  setStatelessAside,
  setTwiceWeighedAside,
} from "./weights-in-doubt.ts";

/** What each column may be, and what of it had to be left open. */
export interface Claims {
  /** the meaning a column was given */
  taken: Map<number, ColumnMeaning>;
  /** columns that several fields, or none, can have */
  doubts: Map<number, ColumnDoubt>;
  /** columns that give way to one with the better claim to their field */
  second: Map<number, HarvestFieldKey>;
}

const slotOf = ({ field, flush }: ColumnMeaning): string => (flush === undefined ? field : `${field} ${flush}`);

const isEmptyProfile = (profile: ColumnProfile | undefined): boolean =>
  profile !== undefined && Object.keys(profile.counts).every((cell) => cell === "empty");

/** What the header of a column that no pin speaks of may mean; nothing where it speaks of gross weights. */
function optionsOf(name: string, pin: ColumnPin | undefined): ColumnMeaning[] {
  if (pin === undefined) return name === "" ? [] : meaningsOfHeader(name);
  if (pin.field === "factor" || pin.field === "unread") return [];
  const { kind } = harvestField(pin.field);
  // "Haul (oz)" says what its numbers are in, whatever it names
  const unit =
    pin.unit ||
    meaningsOfHeader(name).find(({ field }) => field === pin.field)?.unit ||
    headerParts(name).units.find((stated) => stated.kind === kind)?.name;
  // "Flush 1" is of the first, whichever weight it is said to hold
  const flush = isWeightField(pin.field) ? flushInHeader(name)?.flush : undefined;
  const meaning = { field: pin.field, because: "pinned in columns.csv", rank: 4, unit: unit ?? "" } as const;
  return [flush === undefined ? meaning : { ...meaning, flush }];
}

/** Whether a column under a name that says nothing calls each row by a code of its own. */
const namesEachRow = ({ counts, filled, distinct, outcomes }: ColumnProfile): boolean =>
  filled >= 4 && distinct === filled && outcomes === 0 && Object.keys(counts).every((look) => look === "text");

/** A column under a word for names of some kind, such as "Brand", which a tray's end can stand in by mistake. */
const holdsNames = (meanings: ReadonlyArray<ColumnMeaning>): boolean =>
  meanings.every(({ field, rank }) => rank < 3 && field !== "tray_id" && field !== "note") &&
  meanings.every(({ field }) => harvestField(field).kind === "text");

/**
 * Columns under names that say nothing, or that of things with names, in a sheet without a column of outcomes: their cells
 * may be the outcomes.
 */
function possibleEnds(
  header: ReadonlyArray<string>,
  options: ReadonlyArray<ColumnMeaning[]>,
  pinned: ReadonlyArray<ColumnPin | undefined>,
  doubts: Claims["doubts"],
): number[] {
  if (options.some((meanings) => has(meanings, "outcome"))) return [];
  return header.flatMap((name, index) =>
    name === "" || !holdsNames(options[index]!) || pinned[index] !== undefined || doubts.has(index) ? [] : [index],
  );
}

/** Columns under names that say nothing, where none names the trays: "5/6" in them may be so many trays of so many. */
const possibleCounts = (
  header: ReadonlyArray<string>,
  options: ReadonlyArray<ColumnMeaning[]>,
  pinned: ReadonlyArray<ColumnPin | undefined>,
  doubts: Claims["doubts"],
): number[] =>
  options.some((meanings) => has(meanings, "tray_id") || has(meanings, "trays_in_pool"))
    ? []
    : header.flatMap((name, index) =>
        name === "" || options[index]!.length > 0 || pinned[index] !== undefined || doubts.has(index) ? [] : [index],
      );

/**
 * What such a column is by its cells: outcomes where each of them is one and a loss is among them, asked where some are;
 * under a known name, asked where most are.
 */
function endsByCells({ counts, losses, outcomes }: ColumnProfile, isKnown: boolean): "outcome" | "asked" | "nothing" {
  const texts = counts.text ?? 0;
  const others = Object.entries(counts).some(([look, count]) => look !== "text" && look !== "empty" && count > 0);
  if (losses === 0) return "nothing";
  if (isKnown) return outcomes > texts / 2 ? "asked" : "nothing";
  return !others && outcomes === texts && losses < texts ? "outcome" : "asked";
}

/** "Total g" beside weights of flushes of one kind is that weight in all: their sum is held against it. */
function totalOfFlushes(
  header: ReadonlyArray<string>,
  options: ColumnMeaning[][],
  pinned: ReadonlyArray<ColumnPin | undefined>,
): void {
  const ofFlushes = options.flat().filter(({ flush, field }) => flush !== undefined && field !== "harvested_on");
  const field = ofFlushes[0]?.field;
  if (field === undefined || ofFlushes.length < 2 || ofFlushes.some((meaning) => meaning.field !== field)) return;
  if (options.some((meanings) => meanings.some((one) => one.field === field && one.flush === undefined))) return;
  const totals = header.flatMap((name, index) => {
    const { name: words, units } = headerParts(name);
    const isFree = options[index]!.length === 0 && pinned[index] === undefined;
    const unit = units.find(({ kind }) => kind === "mass")?.name ?? "";
    return isFree && summaryKind(words) === "sum" && (unit !== "" || units.length === 0) ? [{ index, unit }] : [];
  });
  if (totals.length !== 1) return;
  const { index, unit } = totals[0]!;
  options[index] = [{ field, because: "a total beside flushes", rank: 1, unit }];
}

/** Gives every slot to the column with the best claim; equal claims are left open. */
function award(claims: ReadonlyMap<string, { index: number; meaning: ColumnMeaning }[]>, out: Claims): void {
  for (const [slot, claimants] of claims) {
    const best = Math.max(...claimants.map(({ meaning }) => meaning.rank));
    const winners = claimants.filter(({ meaning }) => meaning.rank === best);
    if (slot === "note") {
      for (const { index, meaning } of claimants) out.taken.set(index, meaning);
    } else if (winners.length === 1) {
      for (const { index, meaning } of claimants) {
        if (meaning.rank === best) out.taken.set(index, meaning);
        else out.second.set(index, meaning.field);
      }
    } else {
      const columns = claimants.map(({ index }) => index);
      for (const { index, meaning } of claimants)
        out.doubts.set(index, { kind: "one field twice", field: meaning.field, columns });
    }
  }
}

/**
 * "1st", "2nd" are flushes where they stand together and no other column is that weight but their total, "Fresh 1",
 * "Fresh 2" where trays have names, too; else the former are nothing known, the latter each the weight.
 */
function setNumbersAside(header: ReadonlyArray<string>, options: ColumnMeaning[][]): void {
  const isNumbered = ({ flush, rank, because }: ColumnMeaning): boolean =>
    flush !== undefined && (rank === 1 || because === aNumber);
  const hasNames = options.some((meanings) => has(meanings, "tray_id"));
  const isOther = (one: ColumnMeaning, field: HarvestFieldKey): boolean => one.field === field && !isNumbered(one);
  const areFlushes = (field: HarvestFieldKey): boolean => {
    const numbered = options.flat().filter((one) => one.field === field && isNumbered(one));
    const places = new Set(numbered.map(({ flush }) => flush));
    const hasOther = options.some(
      (meanings, index) =>
        meanings.length > 0 &&
        meanings.every((one) => isOther(one, field)) &&
        !wordsOf(header[index]!).includes("total"),
    );
    const isBare = numbered.some(({ rank }) => rank === 1);
    return !hasOther && places.size >= 2 && (isBare || (hasNames && places.has(1)));
  };
  const ofFlushes = (["fresh_g", "dry_g"] as const).filter(areFlushes) as HarvestFieldKey[];
  options.forEach((meanings, index) => {
    options[index] = meanings.flatMap((one) => {
      if (!isNumbered(one) || ofFlushes.includes(one.field)) return [one];
      const { flush: _, ...weight } = one;
      return one.rank === 1 ? [] : [weight];
    });
  });
}

/** Whether another column may be the same thing: one of the two may hold no amount, or only say that it was done. */
const isClaimedTwice = (meanings: ReadonlyArray<ColumnMeaning>, options: ReadonlyArray<ColumnMeaning[]>): boolean =>
  meanings.some(
    (one) =>
      one.field !== "note" &&
      options.filter((others) => others.some((other) => slotOf(other) === slotOf(one))).length > 1,
  );

/**
 * Decides which column is which field: a pin first, then a canonical name, then what the header means to the trade; where
 * only the cells can tell, they are looked at. What they cannot tell stays open.
 * @param profiles counts what the cells of columns look like; called at most once, with the places of the columns in doubt
 * @param remark what a line beside the table says of its weights
 */
export function claimColumns(
  header: ReadonlyArray<string>,
  pinned: ReadonlyArray<ColumnPin | undefined>,
  profiles: (indexes: ReadonlyArray<number>) => ReadonlyMap<number, ColumnProfile>,
  remark?: RemarksSay["weights"],
): Claims {
  const out: Claims = { taken: new Map(), doubts: new Map(), second: new Map() };
  const options = header.map((name, index) => optionsOf(name, pinned[index]));
  setNumbersAside(header, options);
  setFurtherAside(header, options, pinned, out.doubts);
  setRevisedAside(header, options, pinned, out.doubts);
  setGrossAside(header, options, pinned, out.doubts);
  if (remark !== undefined) setRemarkedAside(header, options, pinned, out.doubts, remark);
  const onlyTray = (meanings: ColumnMeaning[]) => meanings.length === 1 && meanings[0]!.field === "tray_id";
  const hasNames = options.some((meanings) => onlyTray(meanings) && meanings[0]!.rank > 1);
  options.forEach((meanings, index) => {
    const isCount = meanings.length === 1 && meanings[0]!.field === "trays_in_pool" && meanings[0]!.rank === 1;
    if (!isCount || !hasNames) return;
    out.doubts.set(index, { kind: "count", field: "trays_in_pool" });
    options[index] = [];
  });
  // a mean beside no count of trays may be of anything
  const hasCounts = options.some((meanings) => has(meanings, "trays_in_pool"));
  // "g" alone is the weight of a sheet that has no other
  const isWeighed = options.some((meanings) => meanings.some(isHarvestWeight));
  options.forEach((meanings, index) => {
    options[index] = meanings.filter(
      ({ because }) => (hasCounts || because !== aMean) && (!isWeighed || because !== aUnitAlone),
    );
  });
  const hasWeights = options.some((meanings) => has(meanings, "fresh_g") || has(meanings, "dry_g"));
  const looksNeeded = options.flatMap((meanings, index) =>
    meanings.length > 1 ||
    (pinned[index] === undefined && isClaimedTwice(meanings, options)) ||
    (onlyTray(meanings) && meanings[0]!.rank === 1) ||
    meanings.some((one) => one.because === aNumber || saysNoState(one)) ||
    needsCells(meanings)
      ? [index]
      : [],
  );
  const ends = possibleEnds(header, options, pinned, out.doubts);
  const first = header.findIndex((name) => name !== "");
  const mayName =
    first >= 0 && options[first]!.length === 0 && pinned[first] === undefined && !out.doubts.has(first)
      ? !options.some((meanings) => has(meanings, "tray_id")) && options.some((meanings) => meanings.length > 0)
      : false;
  const counts = possibleCounts(header, options, pinned, out.doubts);
  const looks = [...new Set([...looksNeeded, ...ends, ...counts, ...(mayName ? [first] : [])])];
  const looked = looks.length > 0 ? profiles(looks) : new Map<number, ColumnProfile>();
  setTwiceWeighedAside(options, looked, out.doubts);
  const found = ends.map((index) => ({
    index,
    end: endsByCells(looked.get(index) ?? nothingKnown, options[index]!.length > 0),
  }));
  for (const index of counts)
    if (looked.get(index)!.areParts && looked.get(index)!.filled > 1)
      out.doubts.set(index, { kind: "count", field: "trays_in_pool" });
  const isOne = found.filter(({ end }) => end === "outcome").length === 1;
  for (const { index, end } of found) {
    if (end === "outcome" && isOne)
      options[index] = [{ field: "outcome", because: "words of outcomes in its cells", rank: 1, unit: "" }];
    else if (end !== "nothing") {
      const named = options[index]!.map(({ field }) => field);
      out.doubts.set(index, { kind: "several fields", fields: ["outcome", "note", ...named] });
      options[index] = [];
    }
  }
  if (mayName && options[first]!.length === 0 && !out.doubts.has(first) && namesEachRow(looked.get(first)!))
    options[first] = [{ field: "tray_id", because: "a code of its own in each row", rank: 1, unit: "" }];
  for (const index of looksNeeded)
    options[index] = byCells(options, index, looked.get(index), { hasNames, hasWeights });
  setStatelessAside(options, looked, out.doubts);
  totalOfFlushes(header, options, pinned);
  const strong = new Set(options.filter((meanings) => meanings.length === 1).map(([only]) => slotOf(only!)));
  const claims = new Map<string, { index: number; meaning: ColumnMeaning }[]>();
  options.forEach((meanings, index) => {
    // a field that another column names alone is no longer in doubt here
    const left = meanings.length > 1 ? meanings.filter((meaning) => !strong.has(slotOf(meaning))) : meanings;
    if (left.length > 1 && !isEmptyProfile(looked.get(index))) {
      out.doubts.set(index, { kind: "several fields", fields: left.map(({ field }) => field) });
      return;
    }
    const meaning = left[0];
    if (meaning !== undefined) addTo(claims, slotOf(meaning), { index, meaning });
  });
  award(claims, out);
  return out;
}

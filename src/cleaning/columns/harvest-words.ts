import type { ColumnSort, SheetWords } from "../../csv/shape/sheet-words.ts";
import { type HarvestFieldKey, isHarvestFieldKey } from "../../records/harvest-field.ts";
import { listTitled, speaksOfMoney } from "../../records/words/money-words.ts";
import { summaryKind } from "../../records/words/summary-label.ts";
import { unitOfAnyKind } from "../../records/words/units.ts";
import { roleByHeader } from "../sort-sources.ts";
import type { ColumnMeaning } from "./column-plan.ts";
import { isMarkedFree } from "./free-mark.ts";
import { headerParts } from "./header-unit.ts";
import { looksLikeHarvestHeader } from "./looks-like-header.ts";
import { lossWord } from "./losses-and-notes.ts";
import { dayOf } from "./match-columns.ts";
import { type MeaningsOf, rememberedMeanings } from "./remembered-meanings.ts";
import { saysUse } from "./use-columns.ts";

const results: ReadonlySet<HarvestFieldKey> = new Set<HarvestFieldKey>([
  "fresh_g",
  "dry_g",
  "final_moisture_pct",
  "outcome",
  "harvested_on",
  "dried_on",
  "days_to_harvest",
  "days_to_colonise",
  "colonised_on",
  "trays_in_pool",
]);

function sortOf(field: HarvestFieldKey): ColumnSort {
  if (field === "tray_id") return "tray";
  if (field === "flush") return "flush";
  if (field === "note") return "note";
  return results.has(field) ? "result" : "set";
}

/** Names for the columns of a list that has a title only. */
const listNames = { costs: ["item", "price", "per"], products: ["product", "price", "grams"] } as const;

/** What the reader of shapes is given of a harvest sheet's words. @param headerMeanings that remember, so that a sheet asks once */
export function harvestWords(headerMeanings: MeaningsOf = rememberedMeanings()): SheetWords {
  const meaningsOf = (name: string, asWritten = false): ReadonlyArray<ColumnMeaning> => {
    const meanings = headerMeanings(name, asWritten);
    // "trich" names a column only where it is known to stand in a header
    return meanings[0]?.because === lossWord ? [] : meanings;
  };
  return {
    looksLikeHeader: (cells) =>
      looksLikeHarvestHeader(cells, (name) => meaningsOf(name).some(({ because }) => !saysUse(because))),
    isOtherList(names) {
      const role = roleByHeader({ header: [...names] }, headerMeanings);
      return role !== undefined && role !== "harvest" && role !== "temperature log";
    },
    listUnder(title) {
      const role = listTitled(title);
      return role === undefined ? undefined : { role, names: listNames[role] };
    },
    columnSort(name, asWritten = false) {
      const text = name.trim();
      if (text === "" || text.length > 60 || !/\p{L}|#/u.test(text)) return undefined;
      const sorts = meaningsOf(text, asWritten).map(({ field }) => sortOf(field));
      // "dried" may be a date or a weight: both are results; where results and settings both fit it is not filled down
      // "n" is a count where it heads a table of means
      if (sorts.includes("tray") && summaryKind(text) !== undefined) return undefined;
      return sorts.includes("tray") ? "tray" : sorts.includes("result") ? "result" : sorts[0];
    },
    dateOf(name) {
      const fields = meaningsOf(name.trim()).map(({ field }) => field);
      return fields.length === 1 ? dayOf[fields[0]!] : undefined;
    },
    isTidy: (names) =>
      names.includes("tray_id") &&
      names.includes("outcome") &&
      names.every((name) => isHarvestFieldKey(name) || isMarkedFree(name) || meaningsOf(name).length === 0),
    massUnit(name) {
      const parts = headerParts(name);
      const mass = parts.units.find(({ kind }) => kind === "mass");
      if (mass !== undefined) return { name: parts.name, unit: mass.name };
      const whole = unitOfAnyKind(name.trim(), "mass");
      return whole?.kind === "mass" ? { name: "", unit: whole.name } : undefined;
    },
    doseName(text) {
      const unit = unitOfAnyKind(text.trim(), "volume");
      return unit?.kind === "volume" ? `Dose (${unit.name})` : undefined;
    },
    isMoney: speaksOfMoney,
    isUnit(text) {
      const unit = unitOfAnyKind(text.trim(), "mass");
      return unit !== undefined && ["mass", "volume", "temperature"].includes(unit.kind);
    },
  };
}

import type { CostLine, CostUnit } from "../../records/cost-line.ts";
import { known } from "../../records/known.ts";
import type { Settings } from "../../records/setting.ts";
import { mayChangePrice } from "../../records/words/money-words.ts";
import type { DateConventions } from "../dates/parse-date.ts";
import { readWord } from "../side-sheets/read-word.ts";
import { costMeasure, splitUnit } from "./cost-amount.ts";
import { costKind, costStage, doneByMyself, isOwnTime, yesOrNo } from "./cost-words.ts";
import { settlePrice } from "./price-for-what.ts";
import { readAmountUsed } from "./read-amount-used.ts";
import { baseNamed, readBase } from "./read-cost-base.ts";
import { readEnergy } from "./read-energy.ts";
import type { CostColumn, CostRow } from "./read-measured.ts";
import { readPackPrice } from "./read-pack-price.ts";
import { readWear } from "./read-wear.ts";
import { settlePackOfItem } from "./settle-item.ts";

/** A count without the word for what is counted: "24 trays" is "24". */
const countOf = (text: string): string => {
  const { number, unit } = splitUnit(text);
  return costMeasure(unit, 1)?.unit === "each" ? number : text;
};

/** What could be read of a cost line; what it cannot do without may be absent. */
export type CostDraft = Partial<CostLine> & Pick<CostLine, "item" | "ownerLabour" | "source">;

function readItem(row: CostRow): string {
  const item = row.text("item");
  if (item === "") {
    row.say("item", {
      rule: "missing",
      reason: "the cost has no name",
      expected: "what it is, such as filter bag",
      action: "Type a name",
    });
  }
  return item;
}

/** The pack price's own range. */
function readPriceRange(row: CostRow): Pick<CostLine, "packPriceLow" | "packPriceHigh"> {
  const packPriceLow = row.has("pack_price_low") ? row.money("pack_price_low", "the low price") : undefined;
  const packPriceHigh = row.has("pack_price_high") ? row.money("pack_price_high", "the high price") : undefined;
  if ((packPriceLow ?? 0) > (packPriceHigh ?? Number.POSITIVE_INFINITY)) {
    row.say("pack_price_low", {
      rule: "range-reversed",
      reason: "the low price is above the high one",
      expected: "the lower price first",
      action: "Exchange them",
    });
  }
  return known({ packPriceLow, packPriceHigh });
}

/** Which trays a line is for, when it is spent and from which day it holds. */
function readWhen(
  row: CostRow,
  dates: Readonly<DateConventions>,
): Pick<CostLine, "stage" | "fromDate" | "onlyWhereColumn" | "onlyWhereValue"> {
  const stage = row.has("stage") ? readWord(row, "stage", costStage) : undefined;
  const fromDate = row.has("from_date") ? row.date("from_date", dates) : undefined;
  const onlyWhereColumn = row.text("only_where_column");
  const onlyWhereValue = row.text("only_where_value");
  if ((onlyWhereColumn === "") !== (onlyWhereValue === "")) {
    row.say(onlyWhereColumn === "" ? "only_where_column" : "only_where_value", {
      rule: "half-a-condition",
      reason: "a condition needs a column and a value",
      expected: "both, or neither",
      action: "Remove this one, or type the other one",
    });
  }
  return { ...(onlyWhereColumn === "" ? {} : { onlyWhereColumn, onlyWhereValue }), ...known({ stage, fromDate }) };
}

/** Kinds that what is bought tells by its unit. */
const kindOfUnit: Readonly<Partial<Record<CostUnit, CostLine["kind"]>>> = {
  hour: "labour",
  kWh: "energy",
  month: "space",
};

/** The unit that a row's pack is counted in. */
function unitBought(row: CostRow, settings: Settings): CostUnit | undefined {
  const size = row.text("pack_size");
  return [row.text("pack_unit"), splitUnit(size).unit, size, row.headerUnit("pack_size")]
    .map((text) => costMeasure(text, settings.cupMillilitres)?.unit)
    .find((found) => found !== undefined);
}

/** "Dose" as an amount, in the eight languages; from memory. */
const theDose = /^(?:by |as |per |the |1 )?(?:dos(?:e|is|i|age|ering)|dawk[aię])$/i;

/** Liquid culture bought by volume goes to each mL of the doses, where the row says no other use of it. */
function settleCulture(row: CostRow, settings: Settings): void {
  const isFor = !row.has("pack_size") && !row.has("amount") && /^\d/.test(row.text("per"));
  // "6.00 for 500 mL"
  if (isFor && costMeasure(splitUnit(row.text("per")).unit, settings.cupMillilitres)?.unit === "mL")
    row.take({ pack_size: row.text("per"), per: "" });
  const isByDose = theDose.test((row.text("amount") || row.text("per")).trim());
  const isFree = !row.has("per") && !row.has("amount");
  if (isFree || (isByDose && !row.has("amount"))) settlePackOfItem(row, settings, "mL");
  if ((!isFree && !isByDose) || unitBought(row, settings) !== "mL") return;
  const reason = "liquid culture is used by the mL of each tray's dose";
  row.say("per", { rule: "culture-by-dose", reason, expected: "", severity: "note" }, "inoculum mL");
  row.take({ per: "inoculum mL", amount: "" });
}

/**
 * What a line is for: its own word; where there is none, the item's name or its unit tell. The kind groups lines and changes
 * no sum but that of a thing that lasts, which needs its uses or its life typed.
 */
function readKind(row: CostRow, item: string, settings: Settings): CostLine["kind"] | undefined {
  if (isOwnTime(row.text("kind"))) return "labour";
  const lasts = row.has("uses") || row.has("life_years");
  if (row.has("kind")) {
    const typed = readWord(row, "kind", costKind);
    if (typed === undefined || typed === "reusable" || !lasts) return typed;
    const reason = "a thing that lasts is written off over its life";
    row.say("kind", { rule: "kind-of-line", reason, expected: "", severity: "change" }, "reusable");
    return "reusable";
  }
  // the last word that names a kind is what the thing is: "grain spawn"
  const named = [item, ...item.split(/[\s,;:/()]+/).reverse()]
    .map((word) => costKind.find(word))
    .find((found) => found !== undefined && !found.misspelt);
  const kind = lasts ? "reusable" : (named?.answer ?? kindOfUnit[unitBought(row, settings) ?? "each"] ?? "consumable");
  // a thing that lasts is not used up with one tray; so much a month may stand for it
  const isMonthly = baseNamed(row.text("per"))?.per === "month";
  if (kind === "reusable" && !lasts && !isMonthly) return readWord(row, "kind", costKind);
  const reason = "no kind: taken from what the line is";
  const read = kind === "reusable" && !lasts ? "overhead" : kind;
  row.say(
    "kind",
    { rule: "kind-of-line", reason, expected: `one of: ${costKind.answers.join(", ")}`, severity: "note" },
    read,
  );
  return read;
}

/** Whether a line is the grower's own time: its own word says so, else the item's name. */
function readIsOwner(row: CostRow, item: string, kind: CostLine["kind"] | undefined): boolean {
  if (row.has("owner_labour")) return readWord(row, "owner_labour", yesOrNo) === "yes";
  const isMine = kind === "labour" && doneByMyself.test(item);
  if (!isMine && !isOwnTime(item) && !isOwnTime(row.text("kind"))) return false;
  const reason = "the grower's own time by its name or kind";
  row.say("owner_labour", { rule: "own-time-by-name", reason, expected: "yes or no", severity: "note" }, "yes");
  return true;
}

/** The money of a line shared with others, as the share of it that is for the trays. */
function ofOwnShare(row: CostRow, money: Partial<CostLine>): Partial<CostLine> {
  if (!row.has("own_share_pct")) return money;
  const typed = row.text("own_share_pct");
  const all = /^\p{L}+$/u.test(typed) ? yesOrNo.find(typed)?.answer : undefined;
  if (all !== undefined) row.take({ own_share_pct: all === "yes" ? "100 %" : "0 %" });
  const share = row.share("own_share_pct", { least: 0, most: 1 }, "your share of the price");
  if (share === undefined) return money;
  const reason = "your share of the price counts, not all of it";
  row.say("own_share_pct", { rule: "own-share", reason, expected: "", severity: "change" }, `${share * 100} %`);
  return Object.fromEntries(Object.entries(money).map(([key, value]) => [key, Number(value) * share]));
}

/** What tells how much a line costs. */
export const neededOfLine = ["packPrice", "packSize", "packUnit", "amount", "per", "kind"] as const;

const isWhole = (draft: CostDraft): draft is CostLine => neededOfLine.every((key) => draft[key] !== undefined);

/**
 * Reads one row of costs.csv.
 * @param isTorn whether two columns of the sheet could be the same, so that neither was read
 * @returns the line, or undefined where something it cannot do without is missing; and what could be read of it
 */
export function readCostRow(
  row: CostRow,
  settings: Settings,
  dates: Readonly<DateConventions>,
  isTorn = false,
): { record: CostLine | undefined; draft: CostDraft } {
  const optional = (key: CostColumn, what: string) =>
    row.has(key)
      ? row.within(key, row.quantity(key, countOf(row.text(key)), "number"), { least: 0, above: true }, what)
      : undefined;
  settlePrice(row, settings, isTorn);
  const item = readItem(row);
  const kind = readKind(row, item, settings);
  if (kind === "culture") settleCulture(row, settings);
  const base = readBase(row);
  const isOwner = readIsOwner(row, item, kind);
  const energy = readEnergy(row);
  const { packPrice, pack } = readPackPrice(row, settings, { kind, isOwner, isEnergy: energy !== undefined });
  const amount = readAmountUsed(row, settings, { kind, pack, energy, base });
  const wear = readWear(row, kind, packPrice, settings.cupMillilitres);
  const expandsToJars = optional("expands_to_jars", "the jars one pack makes");
  const range = readPriceRange(row);
  const normalTraysPerMonth = optional("normal_trays_per_month", "the trays of a normal month");
  const when = readWhen(row, dates);
  const note = row.text("note");
  if (mayChangePrice(note)) {
    row.say("note", {
      rule: "note-changes-price",
      reason: "the note says that not all of the price counts, or that it is not certain: counted as typed",
      expected: "the price that counts, and a note that leaves it as it is",
      action: "Type what counts here as the price, and take that out of the note",
      severity: "warning",
    });
  }
  const share = base?.share ?? 1;
  const draft: CostDraft = {
    item,
    ...known({
      kind,
      packPrice,
      packSize: pack?.value,
      packUnit: pack?.measure.unit,
      amount: amount === undefined ? undefined : amount / share,
      per: base?.per,
      watts: energy?.watts,
      hours: energy?.hours,
      duty: energy?.duty,
    }),
    ...wear,
    ...ofOwnShare(row, known({ packPrice, salvage: wear.salvage, ...range })),
    ...known({ expandsToJars }),
    ownerLabour: isOwner,
    ...when,
    ...known({ normalTraysPerMonth }),
    ...(note === "" ? {} : { note }),
    source: { file: row.file, row: row.row },
  };
  return { record: isWhole(draft) ? draft : undefined, draft };
}

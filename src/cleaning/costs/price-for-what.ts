import type { Settings } from "../../records/setting.ts";
import { plainName } from "../side-sheets/match-side-columns.ts";
import { type CostMeasure, costMeasure, splitUnit } from "./cost-amount.ts";
import { costBase, costKind, ofOne } from "./cost-words.ts";
import { baseNamed, withoutSize } from "./read-cost-base.ts";
import { type CostRow, contentsOf } from "./read-measured.ts";
import {
  apart,
  type Bought,
  boughtOf,
  forOne,
  settleAmount,
  settleCountFor,
  settleDailyHours,
  settleHours,
  settlePeriod,
  settleTimes,
  settleUnit,
  settleWords,
} from "./settle-cells.ts";
import { settlePackOfItem, settleUseOfItem } from "./settle-item.ts";

const inHeader = new RegExp(`(?:/|(?<!\\p{L})(?:${forOne})(?!\\p{L}))\\s*(\\S.*)$`, "iu");
/** Names of what an hour of work or a kWh costs. In eight languages; from memory. */
const ofUnit =
  /^(?:rate|tariff|pay|wages?|salary|(?:stunden)?(?:lohn|satz)|taux|tarif|tarifa|tariffa|tarief|stawka|taxa)$/;
const speaksOfPack = /pack|sack|paket|paquet|confezion|pacote|verpakking|opakowani/i;

class PriceCell {
  private readonly cup: number;

  constructor(
    private readonly row: CostRow,
    private readonly settings: Settings,
    private readonly isTorn: boolean,
  ) {
    this.cup = settings.cupMillilitres;
  }

  private measure(unit: string): CostMeasure | undefined {
    return costMeasure(unit, this.cup);
  }

  /** The pack as typed: "25 kg". */
  private packText(): string {
    return `${this.row.text("pack_size")} ${this.row.text("pack_unit")}`.trim();
  }

  /** Says what was taken from the price, and has the row hold it. */
  private settle(reason: string, result: string, cells: Parameters<CostRow["take"]>[0]): void {
    this.row.say("pack_price", { rule: "price-for-what", reason, expected: "", severity: "change" }, result);
    this.row.take(cells);
  }

  private one(per: string, unit: string, price: string, reason: string): void {
    this.askWhetherAmount(price);
    const packUnit = this.measure(unit)?.unit === "month" ? unit : "each";
    const cells = { pack_price: price, pack_size: "1", pack_unit: packUnit, amount: "1", amount_unit: packUnit, per };
    this.settle(reason, `${price}, one ${per}`, cells);
  }

  /** "Hours, 1.5, per cook": a bare number of what the item counts may be the amount used. */
  private askWhetherAmount(price: string): void {
    const counted = this.measure(/[^\s()]+(?=\)?$)/u.exec(this.row.text("item"))?.[0] ?? "")?.unit;
    if ((counted !== "hour" && counted !== "kWh") || !/^[\d.,]+$/.test(price)) return;
    const what = counted === "hour" ? "time" : "energy";
    this.row.say("pack_price", {
      rule: "price-or-amount",
      reason: `whether this is money or an amount of ${what} is not said`,
      expected: "a price with its currency; or an amount in a column amount, with the price of one beside it",
      action:
        "Where it is money, type its currency behind it; where it is not, move it to a column amount, and type here what one costs",
    });
  }

  /** What one use goes to by a word such as "load", "month" or "per tray"; undefined for a pack, which "box" may be. */
  private useNamed(unit: string): string | undefined {
    const base = costBase.find(unit);
    const measure = unit === "" ? undefined : this.measure(unit);
    const isBase = measure === undefined || measure.unit === "month" || /^(?:tray|jar)s?$/i.test(unit);
    return isBase && base?.misspelt === false ? base.answer : undefined;
  }

  /** The price says what it is for. */
  stated(price: string, { count, unit }: Bought): void {
    const { row } = this;
    const measure = unit === "" ? this.measure("each") : this.measure(unit);
    const base = costBase.find(unit);
    const isPer = !row.has("per") || costBase.find(row.text("per"))?.answer === base?.answer;
    const isFree = !row.has("pack_size") && !row.has("amount") && count === "1" && isPer;
    // "12 per box" is a pack of a box as well as a tray
    const use = row.has("per") && base?.misspelt === false ? base.answer : this.useNamed(unit);
    if (isFree && use !== undefined) {
      this.one(use, unit, price, "the price says what one use is for");
    } else if (speaksOfPack.test(unit) && !row.has("pack_size")) {
      row.take({ pack_price: price });
    } else if (measure === undefined) {
      return;
    } else if (isFree && (measure.unit === "month" || measure.unit === "day") && !row.has("per")) {
      row.take({ pack_price: price, per: unit });
      settlePeriod(row, this.cup);
    } else if (row.has("pack_size")) this.besideSize(price, { count, unit }, measure);
    else {
      const cells = { pack_price: price, pack_size: `${count} ${unit}`.trim() };
      this.settle("the price says what it is for", `${price} for ${cells.pack_size}`, cells);
    }
  }

  private besideSize(price: string, { count, unit }: Bought, measure: CostMeasure): void {
    const { row } = this;
    const size = splitUnit(row.text("pack_size"));
    const sizeUnit = size.unit || row.text("pack_unit") || row.headerUnit("pack_size");
    const other = sizeUnit === "" ? this.measure("each") : this.measure(sizeUnit);
    // "12 per bag" beside a bag of 25 kg
    const isOfPack = count === "1" && measure.unit === "each" && other?.unit !== "each";
    const isSame = size.number.trim() === count && other?.unit === measure.unit && other.factor === measure.factor;
    row.take({ pack_price: price });
    if (isOfPack || isSame) return;
    row.say("pack_price", {
      rule: "two-pack-sizes",
      reason: `the price is for ${`${count} ${unit}`.trim()} and the pack holds ${this.packText()}: which of them the price is of is not said`,
      expected: "a price of the pack, or the pack size that the price is for",
      action: "Type the price of one pack, or make the pack size what the price is for",
    });
  }

  /** A bare price: what it is for shows in the rest of the row. */
  bare(): void {
    const { row } = this;
    const price = row.text("pack_price");
    const header = row.headerText("pack_price");
    const isOfOne = ofOne.test(plainName(header));
    if (isOfOne) this.amountOfOnes();
    else settlePackOfItem(row, this.settings);
    if (row.has("pack_size")) {
      if (isOfOne && Number(splitUnit(row.text("pack_size")).number.replace(",", ".")) !== 1) this.unitPriceOfPack();
      return;
    }
    const lacks = (key: "pack_size" | "pack_unit" | "amount"): boolean => row.headerText(key) === "";
    if (row.has("pack_unit") && (isOfOne || lacks("pack_size")) && !speaksOfPack.test(header)) {
      const unit = row.text("pack_unit");
      const use = this.useNamed(unit);
      if (use !== undefined && !row.has("per") && !row.has("amount"))
        this.one(use, unit, price, "the unit says what one use is for");
      else this.settle("no pack size: the price is that of one", `${price} for 1 ${unit}`, { pack_size: "1" });
    }
    if (row.has("pack_size") || row.has("pack_unit")) return;
    const hourly = this.unitByKind();
    if (hourly !== undefined) {
      const cells = { pack_size: `1 ${hourly}` };
      this.settle(`no pack size: the price is that of one ${hourly}`, `${price} for 1 ${hourly}`, cells);
    } else if (!row.has("amount") && !row.has("watts")) this.oneUse(price, header, lacks);
  }

  /** A unit price beside a bare quantity is that of one of what the quantity counts. */
  private amountOfOnes(): void {
    const { row } = this;
    const isBare = /^[\d.,\s]+$/.test(row.text("amount")) && row.headerUnit("amount") === "" && !row.has("amount_unit");
    if (!isBare || row.has("pack_size")) return;
    const unit = row.text("pack_unit") || "each";
    const reason = "a unit price is that of one of what is counted";
    this.settle(reason, `${row.text("pack_price")} for 1 ${unit}`, { pack_size: `1 ${unit}`, amount_unit: unit });
  }

  /** Labour is priced by the hour and energy by the kWh, where the amount is in hours or kWh, or power is given. */
  private unitByKind(): "hour" | "kWh" | undefined {
    const { row } = this;
    const kind = costKind.find(row.text("kind"))?.answer;
    const { unit } = splitUnit(row.text("amount"));
    const typed = [unit, row.text("amount_unit"), row.headerUnit("amount")].find((one) => one !== "") ?? "";
    const used = this.measure(typed)?.unit;
    const isRate = ofUnit.test(plainName(row.headerText("pack_price")));
    if (used === "hour" && (kind === "labour" || isRate)) return "hour";
    return (used === "kWh" && (kind === "energy" || isRate)) || row.has("watts") ? "kWh" : undefined;
  }

  /** "rent, 60, month"; in a sheet without packs and amounts, "gas, 4.50, cook". */
  private oneUse(price: string, header: string, lacks: (key: "pack_size" | "pack_unit" | "amount") => boolean): void {
    const per = this.row.text("per");
    const base = baseNamed(per);
    if (base === undefined || this.isTorn) return;
    const isPlain = lacks("pack_size") && lacks("pack_unit") && lacks("amount") && !speaksOfPack.test(header);
    if (!isPlain && base.per !== "month") return;
    this.one(per, base.per, price, "no pack and no amount: the price is that of one use");
  }

  private unitPriceOfPack(): void {
    const { row } = this;
    row.say("pack_price", {
      rule: "unit-price-of-pack",
      reason: `a unit price beside a pack of ${this.packText()}: whether it is the price of the pack or of one unit of it is not said`,
      expected: "a column pack_price with the price of the pack, or a pack size of 1",
      action: "Name the column pack_price where it is the price of a pack; where it is not, type 1 as the pack size",
    });
  }
}

/**
 * Finds out what the price of a row of costs.csv is for, where it is not said by a pack size: by the price itself
 * ("1.24/kg", "46 for 100", "60 a month"), by its header ("price per kg"), or because the sheet has no packs and no
 * amounts. The row then holds it; the log says what was taken. What can be read two ways is an error.
 */
export function settlePrice(row: CostRow, settings: Settings, isTorn: boolean): void {
  settleAmount(row);
  settleUnit(row);
  settleDailyHours(row);
  settleHours(row);
  settleUseOfItem(row);
  if (!row.has("pack_price")) return;
  settleWords(row);
  settleCountFor(row);
  settleTimes(row, settings.cupMillilitres);
  settlePeriod(row, settings.cupMillilitres);
  const cell = new PriceCell(row, settings, isTorn);
  const [, price, what = ""] = apart.exec(row.text("pack_price")) ?? [];
  // "€/kg" in brackets, "price per kg", or "price (kg)"
  const inBrackets = row.headerUnit("pack_price");
  const measured = costMeasure(inBrackets, settings.cupMillilitres)?.unit ?? "each";
  const isWhat = measured !== "each" || (/^\d/.test(inBrackets) && baseNamed(inBrackets) !== undefined);
  const [, ofHeader = isWhat ? inBrackets : undefined] = inHeader.exec(inBrackets) ?? [];
  if (price !== undefined) cell.stated(price.trim(), boughtOf(contentsOf(what)));
  else if ((baseNamed(ofHeader ?? "")?.share ?? 1) > 1 && !row.has("per")) {
    row.take({ per: ofHeader! });
    cell.bare();
  } else if (ofHeader !== undefined) cell.stated(row.text("pack_price"), boughtOf(contentsOf(withoutSize(ofHeader))));
  else cell.bare();
}

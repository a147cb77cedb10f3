import type { CostBase } from "../../records/cost-line.ts";
import { perWords } from "../../records/words/per-words.ts";
import { currencyMark } from "../side-sheets/currency-mark.ts";
import { costMeasure, splitUnit } from "./cost-amount.ts";
import { costBase, costKind, taxIn } from "./cost-words.ts";
import { baseNamed } from "./read-cost-base.ts";
import type { CostRow } from "./read-measured.ts";

export const forOne = `${perWords}|each|for|a|an|für|pour|voor`;
/** An amount and what it is for: "1.24/kg", "400 g per tray". */
export const apart = new RegExp(`^(.*\\d\\D*?)\\s*(?:/|(?<!\\p{L})(?:${forOne})(?!\\p{L}))\\s*(\\S.*)$`, "iu");

/** What a price buys, as typed: "1.24/kg", "46 for 100", "60 a month". */
export interface Bought {
  count: string;
  unit: string;
}

/** How many of what: "25 kg" is 25 of kg, "kg" is 1, "100" is 100 of nothing named. */
export function boughtOf(text: string): Bought {
  const { number, unit } = splitUnit(text);
  return /^\d/.test(number) ? { count: number.trim(), unit } : { count: "1", unit: text.trim() };
}

/** Whether what a use is for is a pack instead, "21.00 for 25 kg": a size, and nothing that a use could go to. */
const isPack = (row: CostRow): boolean =>
  !row.has("pack_size") && /^\d/.test(row.text("per")) && baseNamed(row.text("per")) === undefined;

/** "Use 12 oz per tray" as the whole of a note. */
const useInNote = /^(?:uses?|used|using|needs?)?\s*(\d[\d.,/ ]*(?:\p{L}[\p{L} ]*)?(?:\/\s*\p{L}+)?)\.?$/iu;

/** "Per tray", "each month" as the whole of a note. */
const useAlone = new RegExp(`^(?:${perWords}|each|every) (\\p{L}+(?: \\p{L}+)?)\\.?$`, "iu");

/** An amount and what a text says that it goes to: "400 g per tray". */
function useIn(text: string): { amount: string; base: CostBase } | undefined {
  const [, amount = "", what = ""] = apart.exec(text.replace(/^(?:one|an?) /i, "1 ")) ?? [];
  const base = costBase.find(what);
  return amount === "" || base?.misspelt !== false ? undefined : { amount, base: base.answer };
}

/**
 * "400 g per tray" as an amount: what it goes to, where the row does not say it otherwise. It may stand under what a use is
 * for, or be the whole note of a row that states no amount, nor what it or its price goes to.
 */
export function settleAmount(row: CostRow): void {
  const column = row.has("amount") ? "amount" : row.has("per") ? "per" : "note";
  if (column === "note" && costBase.find(apart.exec(row.text("pack_price"))?.[2] ?? "") !== undefined) return;
  const use = useIn(column === "note" ? (useInNote.exec(row.text("note"))?.[1] ?? "") : row.text(column));
  if (use === undefined) {
    const [, noted = ""] = useAlone.exec(row.text("note").trim()) ?? [];
    if (column === "note" && baseNamed(noted) !== undefined) row.take({ per: noted });
    return;
  }
  const { amount, base } = use;
  const pack = column === "amount" && isPack(row) ? { pack_size: row.text("per") } : {};
  const isElsewhere = column === "amount" && row.has("per") && costBase.find(row.text("per"))?.answer !== base;
  if (isElsewhere && pack.pack_size === undefined) return;
  const reason = `the ${column === "note" ? "note" : "amount"} says what it goes to`;
  row.say(column, { rule: "amount-for-what", reason, expected: "", severity: "change" }, `${amount} per ${base}`);
  row.take({ amount, per: base, ...pack });
}

// In the eight languages, from memory.
const aDay =
  /\s*(?:(?:a|per|each|every|am|pro|par|al|por|na)\s+|\/\s?)(?:day|d|tag|jour|día|giorno|dag|dzień|dia)\)?$/iu;

const dailyHours = /^(\d+(?:[.,]\d+)?)\s*(?:h|hrs?|hours?|std|stunden|uur|heures?|horas?|ore)?$/iu;

/**
 * "12 h a day", or 12 under "hours per day", are a month's hours, or those of a shelf day; the cell or the header says so. Of
 * what goes to anything else they are asked.
 */
export function settleDailyHours(row: CostRow): void {
  const hours = row.text("hours");
  if (hours === "" || (!aDay.test(hours) && !aDay.test(row.headerText("hours")))) return;
  const [, number] = dailyHours.exec(hours.replace(aDay, "")) ?? [];
  const per = row.has("per") ? baseNamed(row.text("per"))?.per : "month";
  if (number !== undefined && per === "shelf day") row.take({ hours: `${number} h` });
  else if (number !== undefined && per === "month") {
    const ofMonth = Number(((Number(number.replace(",", ".")) * 365) / 12).toPrecision(12));
    row.take({ hours: `${ofMonth} h`, per });
  } else {
    row.say("hours", {
      rule: "hours-of-day",
      reason: "these are the hours of a day, and what the line goes to is no day and no month",
      expected: "the hours of one use, such as 2.5",
      action: "Type the hours of one use under a column hours, or month as what the line goes to",
    });
  }
}

/** Hours without the power that is drawn in them are hours of work, or of a machine paid by the hour: the amount used. */
export function settleHours(row: CostRow): void {
  if (!row.has("hours") || row.has("watts") || row.has("amount")) return;
  if (costKind.find(row.text("kind"))?.answer === "energy") {
    row.say("watts", {
      rule: "missing",
      reason: "the hours are given and the power drawn in them is not",
      expected: "a power in W or kW, such as 1500 or 1.5 kW",
      action: "Type the power, or the kWh as amount",
    });
    return;
  }
  const hours = row.text("hours");
  row.take({ amount: /\p{L}/u.test(hours) ? hours : `${hours} h` });
}

const countFor = /^(\d{1,3})\s*(?:for|für|pour|voor|por)\s+(.+)$/iu;
const perOne = new RegExp(`^(?:/\\s*|(?:${forOne})\\s+)`, "iu");
/** "per kg" as a unit is a kg. The one unit of a line of work or energy without a pack is the amount's: "12, 5, min" is not 12 a minute. */
export function settleUnit(row: CostRow): void {
  row.take({ pack_unit: row.text("pack_unit").replace(perOne, "") });
  const kind = costKind.find(row.text("kind"))?.answer;
  if ((kind !== "labour" && kind !== "energy") || row.has("pack_size") || row.has("amount_unit") || !row.has("amount"))
    return;
  row.take({ amount_unit: row.text("pack_unit"), pack_unit: "" });
}

// In the eight languages, from memory.
const every =
  /^(?:once )?(?:every|each|per|an?|alle|jede[nrs]?|pro|je|tou(?:te)?s les|chaque|par|cada|por|ogni|elke?|co)\s+/iu;
const forNothing =
  /^(?:for )?(?:free|gratis|a? ?gift|kostenlos|umsonst|geschenkt|gratuite?|offert|gratuit[oa]|za darmo|darmo|grátis)[.!]?(?:\s*\(.*\))?$/iu;

/** "twice a year" and "4x per year" are so many times in it. */
const oftenIn = /^(once|twice|\d{1,3}(?:\s?x| times)) (?:a|per|every|each|in a) /iu;
const timesOf = (word: string): number => ({ once: 1, twice: 2 })[word.toLowerCase()] ?? Number.parseInt(word, 10);

/** In the eight languages, from memory. */
const aPlace = /(?:^|\s)(?:shelf|shelves|rack|places?|regal|étagère|estante|scaffale|plank|półka|prateleira)/iu;

/** A price for a time other than a month ("120, year", "5, week", "30, every 3 months") is shared over its months. */
export function settlePeriod(row: CostRow, cup: number): void {
  if (row.has("pack_size") || row.has("amount") || baseNamed(row.text("per"))?.share === 1) return;
  const ofLife = !row.has("kind") && !row.has("per") && !row.has("uses") && !row.has("uses_per_year");
  const inYears = /last|yield|make|enough/i.test(row.headerText("life_years")) ? "$&" : "$& years";
  const life = ofLife
    ? row
        .text("life_years")
        .replace(/^(?:lasts?|for|about)\s+/i, "")
        .replace(/^[\d.,]+$/, inYears)
    : "";
  // a thing that lasts for 100 trays is for those
  if (life !== "" && baseNamed(life) !== undefined && costMeasure(splitUnit(life).unit, cup)?.unit !== "month") {
    row.take({ per: life, life_years: "", kind: "consumable" });
    return;
  }
  const [often = "", times = "once"] = oftenIn.exec(row.text("per")) ?? [];
  const time = row.text("per").slice(often.length).replace(every, "") || life;
  const { count, unit } = boughtOf(time);
  const measured = costMeasure(unit, cup)?.unit;
  if (time === "" || (measured !== "month" && measured !== "day")) return;
  if (measured === "day" && costMeasure(unit, cup)?.factor === 1 && aPlace.test(row.text("item"))) {
    row.say("per", {
      rule: "day-of-what",
      reason: "whether it is the day of one tray's place or of all of them is not said",
      expected: "shelf day for the place of one tray, or month for all of them",
      action: "Type shelf day, or the cost of a month and month",
    });
    return;
  }
  const size = `${often === "" ? count : Number(count) / timesOf(times)} ${unit}`;
  const reason = "the price is for so long, and is shared over its months";
  row.say("pack_price", { rule: "price-for-what", reason, expected: "", severity: "change" }, size);
  row.take({
    pack_size: size,
    ...(measured === "month" ? { amount: "1 month", per: "month" } : { amount: "365 days", per: "12 months" }),
    ...(life === "" ? {} : { life_years: "", kind: "overhead" }),
  });
}

/** "3 for 10": a price of 3 for 10 of them or 3 of them for 10. A currency's sign or its hundredths tell. */
export function settleCountFor(row: CostRow): void {
  const [, count = "", price = ""] = countFor.exec(row.text("pack_price")) ?? [];
  if (row.has("pack_size")) return;
  if (currencyMark(price).mark !== "" || /^\d+[.,]\d\d$/.test(price)) {
    const result = `${price} for ${count}`;
    row.say(
      "pack_price",
      { rule: "price-for-what", reason: "so many for a price", expected: "", severity: "change" },
      result,
    );
    row.take({ pack_price: price, pack_size: count });
  } else if (/^\d+$/.test(price) && Number(count) <= 24) {
    row.say("pack_price", {
      rule: "count-or-price",
      reason: `it may be ${count} pieces for ${price}, or a price of ${count} for ${price} pieces`,
      expected: `a price with two decimals: ${count} for ${price}.00, or ${count}.00 for ${price}`,
      action: "Type the price with its two decimals",
    });
  }
}

const timesBehind: ReadonlyArray<readonly [RegExp, string]> = [
  [
    /(?<=\d\D{0,4})(?:p\.?c\.?m\.?|p\/?m|p\. ?m\.|monthly|monatlich|im monat|mtl\.?|mensuel\w*|mensual\w*|mensil[ei]|mensais|mensal|maandelijks|miesięcznie)$/iu,
    " per month",
  ],
  [
    /(?<=\d\D{0,4})(?:p\/?a|p\. ?a\.|yearly|annually|jährlich|im jahr|annuel\w*|anual\w*|annuale|rocznie)$/iu,
    " per year",
  ],
  [/(?<=\d\D{0,4})(?:p\/?w|weekly|wöchentlich)$/iu, " per week"],
];
const eachOne =
  /(?<=\d\D{0,3})\s*(?:\/ ?)?(?:each|ea|apiece|per piece|a piece|pro stück|je stück|la pièce|cada una?|stuk|al pezzo|za sztukę|cada)\.?$/iu;

const times = /^(\d[\d.,]*)\s*(\p{L}*)\s*(?:(?<![\p{L}])x|×|\*|@|à)\s*(\p{Sc}?\s?\d[\d.,]*\s?\p{Sc}?)$/iu;

/** "60 kWh x 0.30", "2 @ 0.32": so many at a price. */
export function settleTimes(row: CostRow, cup: number): void {
  const [, count = "", unit = "", price = ""] = times.exec(row.text("pack_price")) ?? [];
  const isUnit = unit === "" || costMeasure(unit, cup) !== undefined;
  if (price === "" || !isUnit || row.has("pack_size") || row.has("amount")) return;
  const amount = `${count} ${unit || "each"}`;
  const reason = "so many of them at a price";
  row.say("pack_price", { rule: "price-for-what", reason, expected: "", severity: "change" }, `${amount} at ${price}`);
  row.take({ pack_price: price, pack_size: `1 ${unit || "each"}`, amount });
}

/** What costs nothing needs no pack; tax that is in a price is part of what is paid; "60 pm" is a month's, "12 each" one's. */
export function settleWords(row: CostRow): void {
  const typed = row.text("pack_price").replace(taxIn, "");
  const price = timesBehind.reduce((text, [time, words]) => text.replace(time, words), typed.replace(eachOne, ""));
  if (price !== row.text("pack_price")) row.take({ pack_price: price });
  if (eachOne.test(typed) && row.has("amount") && !row.has("pack_size"))
    row.take({ pack_size: "1", pack_unit: "each" });
  if (!forNothing.test(price)) return;
  const amount = row.text("amount") || "1";
  row.take({ pack_price: "0", amount, pack_size: row.text("pack_size") || amount, per: row.text("per") || "tray" });
}

import type { FeeBase } from "../../records/product.ts";
import { taxIn, yesOrNo } from "../costs/cost-words.ts";
import { currencyMark } from "../side-sheets/currency-mark.ts";
import { readWord } from "../side-sheets/read-word.ts";
import { wordChoice } from "../side-sheets/word-choice.ts";
import type { ProductColumn, ProductRow } from "./product-columns.ts";

const feeBase = wordChoice<FeeBase>({
  price: "item price|item|product price|selling price|price only",
  "price and shipping":
    "item shipping|price shipping|price plus shipping|item and shipping|price with shipping|order|order total before tax|subtotal",
  "price, shipping and tax":
    "price shipping tax|everything|total|order total|price and shipping and tax|all|gross total|total with tax|whole order",
});

function readMinutes(row: ProductRow): number | undefined {
  const text = row.text("minutes");
  if (text === "") return 0;
  const isBare = !/\p{L}/u.test(text);
  const value = isBare ? row.quantity("minutes", text, "number") : row.quantity("minutes", text, "hours");
  const minutes = value === undefined || isBare ? value : Number((value * 60).toPrecision(12));
  return row.within("minutes", minutes, { least: 0 }, "the minutes of work");
}

export const shareOf = (row: ProductRow, key: ProductColumn, what: string, absent = 0) =>
  row.has(key) ? row.share(key, { least: 0, most: 1 }, what) : absent;
const moneyOf = (row: ProductRow, key: ProductColumn, what: string) => (row.has(key) ? row.money(key, what) : 0);

// In the eight languages, from memory.
const notCharged =
  /^(?:free|included|incl\.?|none|gratis|kostenlos|inklusive|offert\w*|gratuit\w*|inclus\w*|inbegrepen|w cenie)$/i;

function readShippingCharged(row: ProductRow): number | undefined {
  // "Customer pays postage: yes" is what it costs
  const text = row.text("shipping_charged");
  const answer = /^\p{L}+$/u.test(text) ? yesOrNo.find(text)?.answer : undefined;
  if (answer !== undefined && row.has("shipping_cost"))
    row.take({ shipping_charged: answer === "yes" ? row.text("shipping_cost") : "free" });
  if (!notCharged.test(row.text("shipping_charged"))) return moneyOf(row, "shipping_charged", "the shipping charged");
  row.say(
    "shipping_charged",
    { rule: "not-charged", reason: "the buyer pays nothing for it", expected: "", severity: "change" },
    "0",
  );
  return 0;
}

const saysShare = /%|pct|percent|prozent|rate|share|satz|commission|provision|pourcentage|porcentaje|percentual/i;

const aShare = /^[\d.,]+\s*%$/;
const someMoney = /^\p{Sc}?\s?[\d.,]+\s?(?:\p{Sc}|p|c|ct|cents?|pence)?$/iu;
const isMoney = /\p{Sc}|\d\s*(?:p|c|ct|cents?|pence)$/iu;

const piecesOf = (text: string): string[] =>
  text
    .split(/\s*(?:\+|&|(?<=[\d%\s])(?:and|plus|und|et|y|e)(?=\s))\s*/iu)
    .map((piece) => piece.trim())
    .filter((piece) => piece !== "");

/** "6.5 % + 3 % + 0.30" is a share and a fixed fee, and "€0.30" or 0.30 under "Fee €" a fixed one; the row then holds both. */
function settleFee(row: ProductRow): void {
  const ofHeader = currencyMark(row.headerUnit("fee_pct") || row.headerText("fee_pct")).mark;
  const [typed, fixed] = [piecesOf(row.text("fee_pct")), piecesOf(row.text("fee_fixed"))];
  const pieces = [...typed, ...fixed];
  const shares = pieces.filter((piece) => aShare.test(piece));
  const money = pieces.filter((piece) => !aShare.test(piece));
  const isBare = typed.length === 1 && shares.length === 0 && !isMoney.test(typed[0]!) && ofHeader === "";
  const isSettled = shares.every((one) => typed.includes(one)) && money.every((one) => fixed.includes(one));
  if (isBare || (isSettled && shares.length < 2) || !money.every((piece) => someMoney.test(piece))) return;
  const share = shares.reduce((sum, piece) => sum + Number(piece.replace(/\s*%$/, "").replace(",", ".")), 0);
  const cells = {
    fee_pct: shares.length === 0 ? "" : `${Number(share.toPrecision(12))} %`,
    fee_fixed: money.join(" + "),
  };
  const reason = "the fee is of several parts, or money";
  const result = `${cells.fee_pct} ${cells.fee_fixed}`.trim();
  row.say("fee_pct", { rule: "fee-with-money", reason, expected: "", severity: "change" }, result);
  row.take(cells);
}

/** The fee as a share of the price. A bare number in a column of fees may be money. */
function readFee(row: ProductRow): number | undefined {
  settleFee(row);
  const isBare = /^[\d.,]*[1-9][\d.,]*$/.test(row.text("fee_pct"));
  if (!isBare || saysShare.test(row.headerText("fee_pct"))) return shareOf(row, "fee_pct", "the fee");
  return row.say("fee_pct", {
    rule: "fee-share-or-money",
    reason: "whether the fee is a percentage or money is not said",
    expected: "a percentage such as 6.5 %, or money in a column fee_fixed",
    action: "Type the % behind it, or name the column fee_fixed where it is money",
  });
}

// In the eight languages, from memory.
const noTax =
  /^(?:zero|zero[- ]rated|exempt|no (?:vat|tax)|(?:vat|tax)[- ]free|steuerfrei|exonéré|exento|esente|vrijgesteld|zwolnion[ey]|isento)$/i;

/** "7 % inkl.", "20% on top"; in the eight languages, from memory. */
const rateIn =
  /^(\d[\d.,]*\s?%)\s*\(?(?:(in[ck]l\p{L}*|inc|inbegriffen|enthalten|compris\w*)|on top|extra|ex\p{L}*|plus|zzgl)\.?\)?$/iu;

/** "12.50 inc VAT", "7 % incl." and a rate of "zero rated": what the cells themselves say of tax. */
function settleTax(row: ProductRow): void {
  if (noTax.test(row.text("tax_pct"))) row.take({ tax_pct: "0" });
  const [, rate, isIn] = rateIn.exec(row.text("tax_pct")) ?? [];
  if (rate !== undefined && !row.has("tax_included"))
    row.take({ tax_pct: rate, tax_included: isIn === undefined ? "no" : "yes" });
  const price = row.text("current_price");
  if (!taxIn.test(price)) return;
  row.take({ current_price: price.replace(taxIn, ""), ...(row.has("tax_included") ? {} : { tax_included: "yes" }) });
}

/** What it costs to sell a unit; undefined parts could not be read. */
export function readTerms(row: ProductRow) {
  settleTax(row);
  const taxRate = shareOf(row, "tax_pct", "the tax rate");
  const included = row.has("tax_included") ? readWord(row, "tax_included", yesOrNo) : "no";
  if (!row.has("tax_included") && (taxRate ?? 0) > 0) {
    row.say("tax_included", {
      rule: "missing",
      reason: "there is a tax rate, and nothing says whether the price includes it",
      expected: "yes or no",
      action: "Type yes if the price shown to the buyer includes the tax, else no",
    });
  }
  if (included === "yes" && !row.has("tax_pct")) {
    row.say("tax_pct", {
      rule: "tax-without-rate",
      reason: "the price holds a tax whose rate is not stated, so that all of it counts as yours",
      expected: "the rate, such as 20 %; 0 where none is passed on",
      action: "Type the rate of the tax in a column tax_pct",
      severity: "warning",
    });
  }
  return {
    packagingCost: moneyOf(row, "packaging_cost", "the packaging cost"),
    minutes: readMinutes(row),
    shippingCost: moneyOf(row, "shipping_cost", "the shipping cost"),
    shippingCharged: readShippingCharged(row),
    feeFraction: readFee(row),
    feeFixed: moneyOf(row, "fee_fixed", "the fixed fee"),
    feeBase: row.has("fee_base") ? readWord(row, "fee_base", feeBase) : "price",
    taxRate,
    taxIncluded: included === "yes",
  };
}

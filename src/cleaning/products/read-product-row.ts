import { known } from "../../records/known.ts";
import type { MadeOf, Product, ProductForm } from "../../records/product.ts";
import type { Settings } from "../../records/setting.ts";
import { withMoneyWords } from "../../records/words/languages.ts";
import { takesFromPrice } from "../../records/words/money-words.ts";
import { perWords } from "../../records/words/per-words.ts";
import { unitNamed } from "../../records/words/units.ts";
import { splitUnit } from "../costs/cost-amount.ts";
import { plainName } from "../side-sheets/match-side-columns.ts";
import { readWord } from "../side-sheets/read-word.ts";
import { wordChoice } from "../side-sheets/word-choice.ts";
import type { ProductColumn, ProductRow } from "./product-columns.ts";
import { readMadeOf } from "./read-made-of.ts";
import { readPriceEndings } from "./read-price-endings.ts";
import { readQuantityDiscounts } from "./read-quantity-discounts.ts";
import { readTerms, shareOf } from "./read-terms.ts";

const productForm = wordChoice(
  withMoneyWords<ProductForm>("forms", {
    fresh: "raw|wet|whole fresh|fresh mushrooms|punnet",
    dried: "dry|dehydrated|dried slices|dried whole|slices",
    powder: "powdered|ground|milled|capsules|flour",
    other: "tincture|extract|kit|grow kit|tea|broth|pickled|frozen|bundle|culture|spores|workshop|service|course",
  }),
);
/** A weight among words. */
const massIn =
  /(?<![\p{L}\d.,])(\d[\d.,]*(?:\/\d+)?)\s?(mg|g|gr|gram(?:m|me|mo|mi|s)?|kg|kilos?|oz|ounces?|lbs?|pounds?)(?!\p{L})/giu;

/** Packs of ounces hold fewer than this: two pounds are sold by the pound. Common practice, no source. */
const fewestGrams = 25;

/** The unit of a bare weight, and what tells it: "30" beside "Dried 30 g jar", or more than packs of ounces hold. */
function unitOfBare(row: ProductRow, displayUnits: Settings["displayUnits"]): [unit: string, reason: string] {
  const size = row.text("grams");
  const named = [...row.text("product").matchAll(massIn)].find(([, number]) => number === size);
  if (named !== undefined) return [unitNamed(named[2]!, "mass")?.name ?? "", "the product's name says so"];
  const isMany = displayUnits === "metric" && Number(size.replace(",", ".")) >= fewestGrams;
  return isMany ? ["g", "no pack is sold by so many ounces"] : ["", ""];
}

/** Reads the weight of one unit; a unit made of cost lines or other products needs none. */
function readGrams(
  row: ProductRow,
  { massUnit, displayUnits }: Settings,
  madeOf: MadeOf | undefined,
): number | undefined {
  if (!row.has("grams")) {
    if (typeof madeOf === "object") return 0;
    return row.say("grams", {
      rule: "missing",
      reason: "the weight of one unit is missing",
      expected: "grams of product in one unit, such as 50",
      action: "Type the weight",
    });
  }
  const inHeader = unitNamed(row.headerUnit("grams") || row.headerText("grams"), "mass")?.name;
  const isCanonical = row.headerText("grams").trim().toLowerCase().startsWith("g");
  const stated = inHeader ?? (isCanonical ? "g" : massUnit);
  const [bareUnit, bareUnitReason] =
    stated === "" ? unitOfBare(row, displayUnits) : [stated, "the header or the settings say so"];
  const grams = row.quantity("grams", row.text("grams"), "mass", { bareUnit, bareUnitReason });
  besideName(row, grams);
  return row.within("grams", grams, { least: 0, above: typeof madeOf !== "object" }, "the weight of one unit");
}

function readLoss(row: ProductRow): number | undefined {
  const loss = shareOf(row, "processing_loss_pct", "the processing loss");
  if (loss !== 1) return loss;
  return row.say("processing_loss_pct", {
    rule: "out-of-range",
    reason: "all of the product would be lost",
    expected: "below 100 %",
    action: "Correct the number",
  });
}

// In the eight languages, from memory.
const byWeek = /week|woche|semaine|semana|settiman|tydzie|tygod/i;
const noLimit = /^(?:unlimited|no limit|any|∞|unbegrenzt|illimitée?|ilimitado|illimitato|onbeperkt|bez limitu)$/i;

/** Units sold in a month, of which the cell may give the weight, "2 kg", and the header those of a week. */
function unitsOfMonth(row: ProductRow, key: ProductColumn, grams: number | undefined, what: string) {
  const text = row.text(key);
  if (text === "" || noLimit.test(text)) return undefined;
  const weight = unitNamed(splitUnit(text).unit || row.headerUnit(key), "mass");
  const bare = { bareUnit: weight?.name ?? "", bareUnitReason: "the header says so" };
  const typed = weight === undefined ? row.quantity(key, text, "number") : row.quantity(key, text, "mass", bare);
  const count = typed === undefined || weight === undefined ? typed : grams ? typed / grams : undefined;
  const times = byWeek.test(row.headerText(key)) ? 365 / 7 / 12 : 1;
  return row.within(key, count === undefined ? undefined : count * times, { least: 0 }, what);
}

/** What is wanted and expected of a product; parts that are not stated are absent. @param grams in one unit */
function readPlans(row: ProductRow, grams: number | undefined): Partial<Product> {
  const targetMargin = row.has("target_margin_pct")
    ? row.share("target_margin_pct", { least: 0, most: 0.99 }, "the target margin")
    : undefined;
  const currentPrice = row.has("current_price") ? row.money("current_price", "the current price") : undefined;
  const expectedUnitsPerMonth = unitsOfMonth(row, "expected_units_month", grams, "the units expected");
  const maxUnitsPerMonth = unitsOfMonth(row, "max_units_month", grams, "the most units");
  const quantityDiscounts = readQuantityDiscounts(row);
  return {
    ...known({ targetMargin, currentPrice, expectedUnitsPerMonth, maxUnitsPerMonth }),
    ...(quantityDiscounts.length === 0 ? {} : { quantityDiscounts }),
  };
}

/** The grade of the grams a product is made of; a grade without its share of the weight makes the row fail. */
function readGrade(row: ProductRow): Pick<Product, "grade" | "gradeShare"> {
  const grade = row.text("grade");
  if (grade === "") return {};
  if (!row.has("grade_share_pct")) {
    row.say("grade_share_pct", {
      rule: "missing",
      reason: "the grade's share of the good weight is missing, so its part of the cost is not known",
      expected: "a share such as 15 %",
      action: "Type what share of the weight is of this grade, or empty the grade",
    });
    return { grade };
  }
  const gradeShare = row.within(
    "grade_share_pct",
    row.share("grade_share_pct", { least: 0, most: 1 }, "the grade's share"),
    { least: 0, above: true },
    "the grade's share",
  );
  return known({ grade, gradeShare });
}

type Read<T> = { [K in keyof T]: Exclude<T[K], undefined> };

const isRead = <T extends object>(parts: T): parts is T & Read<T> =>
  Object.values(parts).every((part) => part !== undefined);

/** Has the row hold the form that the product's name states, where nothing else does: "Dried 30 g pouch". */
function takeFormOfName(row: ProductRow): void {
  if (row.has("form")) return;
  const found = plainName(row.text("product")).split(" ").map(productForm.find);
  const forms = new Set(found.flatMap((one) => (one?.misspelt === false ? [one.answer] : [])));
  const [form] = forms;
  if (form === undefined || forms.size > 1) return;
  row.say(
    "product",
    { rule: "form-by-name", reason: "its name says the form", expected: "", severity: "change" },
    form,
  );
  row.take({ form });
}

/** The one weight in a text among words, and how many of it: "Dried 30 g pouch", "60 x 0.5 g"; undefined where there is none, or more. */
function weightAmong(text: string): { weight: string; count: number | undefined } | undefined {
  const [found, second] = text.matchAll(massIn);
  if (found === undefined || second !== undefined) return undefined;
  const [whole, number, unit] = found;
  const times = /(\d{1,3})\s*[x×*]\s*$/u.exec(text.slice(0, found.index))?.[1];
  if (times === undefined) return /\d/.test(text.replace(whole, "")) ? undefined : { weight: whole, count: undefined };
  const value = Number((Number(times) * Number(number!.replace(",", "."))).toPrecision(12));
  return Number.isNaN(value) ? undefined : { weight: `${value} ${unit}`, count: Number(times) };
}

const byTheUnit = new RegExp(`^(?:(?:sold )?(?:by the|${perWords}|a)\\s+)?(\\p{L}+)$`, "iu");

/** Has the row hold the one weight among the words of its pack or its name; "per kg" is a kilogram. */
function takeGrams(row: ProductRow): void {
  const [, unit = ""] = byTheUnit.exec(row.text("grams")) ?? [];
  if (unitNamed(unit, "mass") !== undefined) row.take({ grams: `1 ${unit}` });
  for (const key of ["grams", "product"] as const) {
    const text = row.text(key);
    const among = weightAmong(text);
    if (among === undefined || among.weight === text) continue;
    const isCount = among.count !== undefined && row.text("grams") === String(among.count);
    if (key === "product" && /\d/.test(row.text("grams")) && !isCount) continue;
    row.say(
      key,
      { rule: "weight-among-words", reason: "the one weight in it", expected: "", severity: "change" },
      among.weight,
    );
    row.take({ grams: among.weight });
    return;
  }
}

/** how far a rounded ounce or pound lies from its grams. Common practice, no source */
const roundedBy = 0.05;

/** Says where the name of a product gives another weight than its pack. */
function besideName(row: ProductRow, grams: number | undefined): void {
  const among = weightAmong(row.text("product"));
  const { number, unit } = splitUnit(among?.weight ?? "");
  const measure = unitNamed(unit, "mass");
  const value = Number(number.replace(",", "."));
  if (grams === undefined || measure === undefined || !(value > 0)) return;
  const named = value * measure.factor;
  if (Math.abs(named - grams) <= roundedBy * grams) return;
  row.say("grams", {
    rule: "two-weights",
    reason: `the product's name says ${among!.weight}, and its pack holds another weight; the pack's was used`,
    expected: "one weight in one unit",
    severity: "warning",
    action: "Correct the one that is wrong",
  });
}

const perWhat = new RegExp(`^(.*\\d\\D*?)\\s*(?:/|(?<!\\p{L})(?:${perWords}|each|ea|a)(?!\\p{L}))\\s*(.*)$`, "iu");
export const ofWeight =
  /^(?:price|preis|prix|precio|prezzo|prijs|cena|pre[cç]o)\s*(?:\/|\(|\p{L}{1,3})?\W*(?:\/|per|pro|je|par|por|al|za)\s*(\d*\s*\p{L}+)\W*$/iu;

/** What weight the price is of, where its cell or its header says it: "180/kg", "price per 100 g"; undefined where it is of one unit. */
function weightOfPrice(row: ProductRow): string | undefined {
  const [, price, what] = perWhat.exec(row.text("current_price")) ?? [];
  const of = what ?? ofWeight.exec(row.headerText("current_price"))?.[1] ?? "";
  const { number, unit } = splitUnit(/^\d/.test(of) ? of : `1 ${of}`);
  const isWeight = unitNamed(unit, "mass") !== undefined;
  if (price !== undefined && (isWeight || !/\d/.test(of))) row.take({ current_price: price });
  return isWeight && row.has("current_price") ? `${number} ${unit}` : undefined;
}

/** A price of a weight as that of one unit. */
function priceOfUnit(
  row: ProductRow,
  price: number | undefined,
  grams: number | undefined,
  of: string,
): number | undefined {
  const weight = row.quantity("current_price", of, "mass");
  if (price === undefined || grams === undefined || weight === undefined) return undefined;
  const value = Number(((price * grams) / weight).toPrecision(12));
  row.say(
    "current_price",
    { rule: "price-of-weight", reason: `the price is for ${of}`, expected: "", severity: "change" },
    String(value),
  );
  return value;
}

/** Reads one row of products.csv; no product where something it cannot do without is missing. */
export function readProductRow(row: ProductRow, settings: Settings): { record: Product | undefined } {
  const product = row.text("product");
  if (product === "") {
    row.say("product", {
      rule: "missing",
      reason: "the product has no name",
      expected: "a name, such as dried slices 50 g",
      action: "Type a name",
    });
  }
  takeFormOfName(row);
  takeGrams(row);
  const ofPrice = weightOfPrice(row);
  // without a weight of its own it is sold by the one its price is of
  if (ofPrice !== undefined && !row.has("grams")) row.take({ grams: ofPrice });
  const form = readWord(row, "form", productForm);
  const madeOf = readMadeOf(row, form);
  const needed = {
    form,
    grams: readGrams(row, settings, madeOf),
    processingLoss: readLoss(row),
    ...readTerms(row),
    sellThrough: shareOf(row, "sell_through_pct", "the share sold", 1),
  };
  const grade = readGrade(row);
  const plans = readPlans(row, needed.grams);
  const { currentPrice: price } = plans;
  const currentPrice = ofPrice === undefined ? price : priceOfUnit(row, price, needed.grams, ofPrice);
  const priceEndings = readPriceEndings(row, "price_endings", settings.currencyDecimals);
  const note = row.text("note");
  if (takesFromPrice(note)) {
    row.say("note", {
      rule: "note-changes-price",
      reason: "the note says that not all of the price comes in, or that it is not certain: counted as typed",
      expected: "the price and what goes off it in their columns, and a note that leaves them as they are",
      action: "Type what counts here as the price or a fee, and take that out of the note",
      severity: "warning",
    });
  }
  const record = !isRead(needed)
    ? undefined
    : {
        ...needed,
        product,
        channel: row.text("channel"),
        ...known({ madeOf }),
        ...grade,
        ...plans,
        ...known({ currentPrice }),
        priceEndings,
        ...(note === "" ? {} : { note }),
        source: { file: row.file, row: row.row },
      };
  return { record };
}

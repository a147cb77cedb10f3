import { type VariedLevels, variedLevels } from "../design/varied-levels.ts";
import type { Book } from "../records/book.ts";
import type { Settings } from "../records/setting.ts";
import { doseOf, type Tray } from "../records/tray.ts";
import { gramsOf, type YieldWeight, yieldWeightOf } from "../records/yield-weight.ts";
import { classPart } from "./charts/chart-place.ts";
import { formatQuantity, type NumberSettings } from "./format-quantity.ts";
import { visibleText } from "./visible-text.ts";

/** What every part of a report is written with. */
export interface ReportFacts {
  settings: Settings;
  /** the weight by which trays are told */
  weight: YieldWeight;
  /** doses tried, in mL, ascending: each keeps its colour and shape everywhere; empty where something else varied */
  doses: ReadonlyArray<number>;
  /** the levels by which trays are grouped and marked: the doses where those differ */
  levels: VariedLevels;
  /** whether a script can answer: buttons and inputs are only then of use */
  isLive: boolean;
  /** what picks out a cook or a product by its name: "cook-C2"; undefined for other names */
  pickOf(name: string): string | undefined;
  /** how many trays some records are: a pool is several */
  countOf(names: ReadonlyArray<string>): number;
}

function countTraysOf({ trays }: Book): ReportFacts["countOf"] {
  const pools = new Map(trays.flatMap(({ trayId, traysInPool }) => (traysInPool === 1 ? [] : [[trayId, traysInPool]])));
  return (names) => names.reduce((sum, name) => sum + (pools.get(name) ?? 1), 0);
}

/** The names by which a book's cooks and products are picked out; a product in any of its channels. */
function pickNamesOf({ trays, products = [] }: Book): ReportFacts["pickOf"] {
  const cooks = new Set(trays.map(({ batch }) => batch));
  const names = new Set(products.map(({ product }) => product));
  return (name) => {
    if (cooks.has(name)) return `cook-${classPart(name)}`;
    const product = [...names].find((own) => name === own || name.startsWith(`${own}, `));
    return product === undefined ? undefined : `product-${classPart(product)}`;
  };
}

/** The doses of a book's trays, ascending. */
export const dosesOf = (trays: ReadonlyArray<Tray>): number[] =>
  [...new Set(trays.map(({ inoculumMillilitres }) => inoculumMillilitres))]
    .filter((dose) => dose !== undefined)
    .sort((a, b) => a - b);

/** What a book's report is written with. */
export function reportFacts(book: Book, isLive: boolean): ReportFacts {
  const levels = variedLevels(book.trays, book.settings.varied);
  const doses = levels.what === "dose" ? levels.values : [];
  return {
    settings: book.settings,
    weight: yieldWeightOf(book) ?? "dry",
    doses,
    levels,
    isLive,
    pickOf: pickNamesOf(book),
    countOf: countTraysOf(book),
  };
}

/** A level as it is written: "9 mL", "100 g", "5%", or its name. */
export function levelName({ unit, names }: VariedLevels, value: number, settings: NumberSettings): string {
  if (names !== undefined) return visibleText(names[value] ?? "", 40);
  return unit === "%"
    ? formatQuantity({ value: value / 100, unit: "share" }, settings)
    : formatQuantity({ value, unit: unit || "factor" }, settings);
}

/** The place on the page of a question. */
export const placeOf = (question: string): string => `q-${question}`;

/** results a dose must have before a report is more than a list of what the trays gave */
const enough = 4;
/** results of a single dose that are seen at a glance: two loads */
const fewOfOne = 12;

/**
 * Whether trays have ended, and no dose (or the book as a whole, where none is stated) has the results that a comparison
 * starts from, or there are few and nothing to compare.
 */
export function hasFewTrays(book: Pick<Book, "trays" | "settings" | "products" | "unread">): boolean {
  const { trays, settings } = book;
  const kind = yieldWeightOf(book);
  const weight = (tray: Tray) => kind && gramsOf(tray, kind);
  const results = new Map<number | string, number>();
  for (const tray of trays) {
    if (tray.outcome === "good" && weight(tray) === undefined) continue;
    if (tray.outcome === "growing" || tray.outcome === "asked") continue;
    const dose = doseOf(tray);
    results.set(dose, (results.get(dose) ?? 0) + tray.traysInPool);
  }
  if (trays.length > 60 || results.size === 0) return false;
  const counts = [...results.values()];
  if (counts.every((count) => count < enough)) return true;
  const isOne = counts.length === 1 && variedLevels(trays, settings.varied).values.length <= 1;
  return isOne && counts[0]! <= fewOfOne && trays.some((tray) => weight(tray) !== undefined);
}

import { type PlainField, trayProperty } from "../../records/tray-property.ts";
import { canonicalUnit } from "../../records/words/units.ts";
import { type ColumnPlan, quantityKindOf } from "../columns/column-plan.ts";
import { freeName } from "../columns/free-mark.ts";
import { saysUse } from "../columns/use-columns.ts";
import { mostOf } from "../plausibility/impossible-value.ts";
import { type SetProperty, setProperty } from "../trays/tray-draft.ts";
import { plainNumber } from "../values/parse-quantity.ts";
import { type CellFact, type CellReading, readingOf } from "./cell-fact.ts";
import { type FlushNames, mayNameFlush } from "./flush-in-names.ts";
import { ownText } from "./own-text.ts";
import { readDateCell } from "./read-date-cell.ts";
import { minusFact, numbersOf, questionOf, readOutcomeCell } from "./read-outcome-cell.ts";
import { readQuantityCell } from "./read-quantity-cell.ts";
import { isPlainName, readTextCell } from "./read-text-cell.ts";
import { readUseCell } from "./read-use-cell.ts";
import { countOnly, type PooledNames, severalTrays } from "./several-trays.ts";

/** Where a column's value goes. */
export type Slot =
  | "property"
  | "tray"
  | "outcome"
  | "fresh"
  | "dry"
  | "harvested"
  | "flush"
  | "pool"
  | "note"
  | "factor";

/** One column with what it takes to read its cells quickly. */
export interface ColumnReader {
  plan: ColumnPlan;
  index: number;
  slot: Slot;
  /** the tray's property, for slot "property"; the name of the factor, for slot "factor" */
  property: string;
  /** writes the tray's property, for slot "property" */
  set: SetProperty;
  /** plain digits are the value as they stand, up to this much; below 0 they never are */
  plainUpTo: number;
  pointIsDecimal: boolean;
  /** what a cell says; the same text is read once */
  read(text: string): CellReading;
  /** the different texts met so far; undefined for a column with very many */
  texts(): string[] | undefined;
}

const memoLimit = 20_000;
/** Texts of a column kept at hand besides; a power of 2. */
const recent = 64;
const slots: Partial<Record<string, Slot>> = {
  tray_id: "tray",
  outcome: "outcome",
  fresh_g: "fresh",
  dry_g: "dry",
  harvested_on: "harvested",
  flush: "flush",
  trays_in_pool: "pool",
  note: "note",
  factor: "factor",
};
const plainLimits: Partial<Record<ColumnPlan["kind"], number>> = { mass: 1e6, volume: 1e6, days: 3650 };

const noProperty: SetProperty = (draft, value) => {
  throw new TypeError(`columnReader: tray ${draft.trayId} has no property for ${value}`);
};

/** What short marks mean that a header explains: "Result (H = harvested, C = contaminated)"; undefined where it explains none. */
function legendOf(header: string): ReadonlyMap<string, string> | undefined {
  const pairs = [...header.matchAll(/(?<![\p{L}\d])([\p{L}\d]{1,3})\s*[=:]\s*(\p{L}[^,;:=()/]*)/gu)];
  return pairs.length === 0 ? undefined : new Map(pairs.map(([, mark, word]) => [mark!.toLowerCase(), word!.trim()]));
}

function factReader(plan: ColumnPlan, ofSeveral: boolean): (text: string) => CellFact {
  const { kind, field } = plan;
  if (kind === "date") return (text) => readDateCell(text, plan);
  if (kind === "outcome") {
    const question = questionOf(plan.header);
    const legend = legendOf(plan.header);
    const numbers = numbersOf(plan.header, ofSeveral);
    return (text) => {
      const mark = text.trim();
      if (mark === "+") plan.hasPlus = true;
      const fact = readOutcomeCell(legend?.get(mark.toLowerCase()) ?? text, question, numbers);
      if (mark === "+") return { ...fact, open: true };
      return plan.hasPlus === true && /^[-–—−]$/.test(mark) && fact.says === undefined ? minusFact : fact;
    };
  }
  if (saysUse(plan.because)) return (text) => readUseCell(ownText(text), plan.because);
  if (kind === "text") {
    const asTyped = field === "factor" || field === "note";
    return (text) => (isPlainName(text) ? { value: ownText(text) } : readTextCell(ownText(text), asTyped));
  }
  return (text) => readQuantityCell(text, plan);
}

const ofSeveral = (fact: CellFact, trays: number): CellFact => ({
  ...fact,
  pool: trays,
  remark: {
    rule: "pooled-name",
    severity: "note",
    reason: "names several trays: what the row says of weights is of all of them together",
    result: `${trays} trays`,
    expected: "",
    action: "Give each tray a row of its own if they were weighed one by one",
  },
});

const severalOrOne: CellFact = {
  unread: true,
  remark: {
    rule: "several-or-one",
    severity: "error",
    reason:
      "several trays, or one of that name? Another row speaks of one of them by itself; the row's weights are not used",
    result: "",
    expected: "a row for each tray, or trays that no other row names",
    action: "Take the tray that has a row of its own out of the range, or name the tray otherwise",
  },
};

const tooMany: CellFact = {
  unread: true,
  remark: {
    ...severalOrOne.remark!,
    rule: "range-too-long",
    reason:
      "more trays than one weight can be of, or one tray of that name? No other name is like it; the row's weights are not used",
    expected: "a range of the trays that were weighed together, or the name of one",
    action: "Correct the range, or name the tray otherwise",
  },
};

const partOrName: CellFact = {
  unread: true,
  remark: {
    ...severalOrOne.remark!,
    rule: "part-or-name",
    reason: "so many trays of so many, or the name of one tray? The row's weights are not used",
    expected: "names of trays, or counts under a header such as Trays",
    action: "Call the column Trays if these are counts; if they are names, say tray_id for it in columns.csv",
  },
};

/** What the names in a column of trays stand for, once that is decided. */
export interface NamesDecided {
  pooled?: PooledNames;
  flushes?: FlushNames;
}

/** The name of a tray, of one of its flushes, or of several weighed together; open until it is decided which. */
function readName(text: string, fact: CellFact, { pooled, flushes }: NamesDecided): CellFact {
  if (mayNameFlush(text)) {
    if (flushes === undefined) return { ...fact, open: true };
    const named = flushes.get(text.trim());
    if (named !== undefined) return named;
  }
  const count = countOnly(text);
  if (count > 0) return ofSeveral({}, count);
  const several = severalTrays(text);
  const isOpen = several !== undefined || /^\d+\s*\/\s*\d+$/.test(text.trim());
  if (pooled === undefined) return isOpen ? { ...fact, open: true } : fact;
  const trays = pooled.get(text.trim());
  if (trays === undefined) return fact;
  if (trays === "parts") return { ...fact, ...partOrName };
  if (trays === "too many") return { ...fact, ...tooMany };
  return trays === "asked" ? { ...fact, ...severalOrOne } : ofSeveral(fact, trays);
}

/**
 * Makes the reader of one planned column.
 * @param names for a column of tray names: what they stand for, once that is decided
 * @param ofSeveral whether a column counts the trays of each row
 */
export function columnReader(plan: ColumnPlan, names: NamesDecided = {}, ofSeveral = false): ColumnReader {
  const { field, kind, conventions } = plan;
  const memo = new Map<string, CellReading>();
  let full = false;
  const recentTexts = new Array<string>(recent);
  const recentReadings = new Array<CellReading>(recent);
  const readFact = factReader(plan, ofSeveral);
  const quantity = quantityKindOf(kind);
  const isName = field === "tray_id";
  const isCanonical =
    quantity !== undefined &&
    (conventions.bareUnit === canonicalUnit[quantity] || (kind === "days" && conventions.bareUnit === ""));
  return {
    plan,
    index: plan.index,
    slot: slots[field] ?? "property",
    property:
      field === "factor"
        ? freeName(plan.header)
        : field in trayProperty
          ? trayProperty[field as keyof typeof trayProperty]
          : "",
    set: field in setProperty ? setProperty[field as PlainField] : noProperty,
    plainUpTo:
      isCanonical && plainLimits[kind] !== undefined
        ? Math.min(plainLimits[kind], mostOf(field) ?? plainLimits[kind])
        : -1,
    pointIsDecimal: conventions.decimalMark === ".",
    read(text) {
      // names of trays are all different: remembering them costs more than it saves
      if (isName) return readingOf(readName(text, readFact(text), names));
      // what a whole cook shares stands in row after row, and is found sooner by its last two characters than by all
      const { length } = text;
      const place = (31 * text.charCodeAt(length - 1) + text.charCodeAt(length - 2)) & (recent - 1);
      if (text === recentTexts[place]) return recentReadings[place]!;
      let reading = memo.get(text);
      if (reading === undefined) {
        reading = readingOf(readFact(text));
        if (memo.size < memoLimit) memo.set(text, reading);
        else full = true;
      }
      recentTexts[place] = text;
      recentReadings[place] = reading;
      return reading;
    },
    texts() {
      if (full) return undefined;
      const found = new Set<string>();
      for (const { value } of memo.values()) if (typeof value === "string") found.add(value);
      return [...found];
    },
  };
}

/** The number of a cell of plain digits in a column that takes them as they stand; -1 for every other cell. */
export const plainValue = ({ plainUpTo, pointIsDecimal }: ColumnReader, text: string): number => {
  if (plainUpTo < 0) return -1;
  const value = plainNumber(text, pointIsDecimal);
  return value <= plainUpTo ? value : -1;
};

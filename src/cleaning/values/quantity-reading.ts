import type { HarvestFieldKey } from "../../records/harvest-field.ts";
import type { TraySaid } from "./outcome-words.ts";

export type { QuantityKind } from "../../records/words/units.ts";

/** Something a rule did to a cell, or objects to in it. */
export interface Change {
  /** the rule's code */
  rule: string;
  /** why, in plain words that do not repeat the cell */
  reason: string;
}

/** Why a cell holds nothing to read. The five are different things, and none of them is 0. */
export type Missing = "blank" | "dash" | "not applicable" | "unknown" | "not weighed";

interface ReadingBase {
  /** every rule that spoke, in order; empty for a cell read as it stands */
  changes: Change[];
}

/** A cell read as a number in the kind's canonical unit; a percentage is a share, 0 to 1. */
export interface ValueReading extends ReadingBase {
  kind: "value";
  value: number;
  unit: string;
}

/** A number the typist did not vouch for ("~45", "45ish"): used, but flagged. */
export interface ApproximateReading extends ReadingBase {
  kind: "approximate";
  value: number;
  unit: string;
}

/** A number known only within bounds; an end that is not known is absent. */
export interface BoundsReading extends ReadingBase {
  kind: "bounds";
  low?: number;
  high?: number;
  unit: string;
}

/** One number for several trays together. */
export interface PoolReading extends ReadingBase {
  kind: "pool";
  trays: number;
  value: number;
  unit: string;
}

/** Nothing there, and how that was said. */
export interface MissingReading extends ReadingBase {
  kind: "missing";
  how: Missing;
}

/** A word for what became of the tray where a number should be. */
export interface OutcomeWordReading extends ReadingBase {
  kind: "outcome-word";
  says: TraySaid;
  /** typed with a question mark, or against itself */
  queried: boolean;
}

/** A number with more than one reading; `setting` in settings.csv decides between them. */
export interface AmbiguousReading extends ReadingBase {
  kind: "ambiguous";
  candidates: { value: number; as: string }[];
  setting: string;
  expected: string;
}

/** Not a number of this kind. */
export interface UnreadableReading extends ReadingBase {
  kind: "unreadable";
  /** what a good cell would look like */
  expected: string;
}

/** What one cell of numbers says. */
export type QuantityReading =
  | ValueReading
  | ApproximateReading
  | BoundsReading
  | PoolReading
  | MissingReading
  | OutcomeWordReading
  | AmbiguousReading
  | UnreadableReading;

/** What a column (or a settings file) has agreed on, so that its cells can be read alike. */
export interface Conventions {
  /** mark before the decimals; "" when not known */
  decimalMark: "" | "." | ",";
  /** whether the column's cells were looked at for what they agree on */
  isAgreed: boolean;
  /** whether commas stand between the column's amounts: "120, 60, 25" */
  commasPart: boolean;
  /** unit of a number typed without one; "" when not known. Kinds with one natural unit (days, hours, count) need none. */
  bareUnit: string;
  /** why `bareUnit` is what it is, as a reason: "the header says oz" */
  bareUnitReason: string;
  /** what 0.129 without a % sign means; "" when not known */
  percentStyle: "" | "percent" | "fraction";
  cupMillilitres: number;
  /** mL in one syringe; 0 when not stated */
  syringeMillilitres: number;
  /** what the column's amounts are of; "" where that is not known */
  measures: "" | HarvestFieldKey;
}

/** Conventions of a place that states none, with canonical units for numbers without one. */
export const plainConventions: Readonly<Conventions> = Object.freeze({
  decimalMark: "",
  isAgreed: false,
  commasPart: false,
  bareUnit: "",
  bareUnitReason: "",
  percentStyle: "",
  cupMillilitres: 236.5882365,
  syringeMillilitres: 0,
  measures: "",
});

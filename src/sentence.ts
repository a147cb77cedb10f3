/**
 * The unit of a number in an answer. "money" is the book's currency; "share" runs 0 to 1 and is written as a percentage;
 * "factor" is a plain number without a unit. A slash makes a rate: "money/g", "g/mL", "g/tray", "g/shelf day".
 */
export type Unit = string;

/** A number with its unit, left for the report to format. */
export interface Quantity {
  value: number;
  unit: Unit;
  /** significant digits wanted; the report chooses when absent */
  digits?: number;
  /** print a leading + on gains */
  signed?: boolean;
  /** the interval it belongs to, which decides its decimals */
  within?: { from: number; to: number };
  /** what was set, not worked out: an interval behind it is not its own */
  isSet?: boolean;
  /** the words beside it say what it is a rate over: "a good dry gram cost 0.33" */
  isNamed?: boolean;
}

/** A range with its unit, left for the report to format. */
export interface QuantityRange {
  from: number;
  to: number;
  unit: Unit;
  digits?: number;
  signed?: boolean;
  isNamed?: boolean;
}

/** A piece of a sentence. */
export type SentencePart = string | Quantity | QuantityRange;

/** A sentence whose numbers the report formats in the reader's units: text and quantities in reading order. */
export type Sentence = ReadonlyArray<string | Quantity | QuantityRange>;

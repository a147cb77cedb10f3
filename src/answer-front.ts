import type { Sentence, Unit } from "./sentence.ts";

/**
 * The one large number of an answer. It is written at 27 px, so it carries no more digits than its range.
 * Give a number wherever there is one; words only where the answer is a name (a tray, a product, a cost).
 */
export type Figure =
  | {
      /**
       * What the number is, in at most six words without a verb; it is written small under the number, before the range.
       * @example "dry, a good tray" under +7.3 g; "lost" under 7 of 84; "left of a started tray" under €1.86
       */
      label: string;
      value: number;
      unit: Unit;
      /** ends of the range it plausibly lies in, read out as "between 4.2 and 10.4"; both or neither */
      from?: number;
      to?: number;
      /** the whole a count is part of: value 7, of 84, unit "trays" is written "7 of 84" */
      of?: number;
      digits?: number;
      /** a leading + on gains: for differences */
      signed?: boolean;
    }
  | {
      label: string;
      /** at most 40 characters @example "cook 2", "C1-010", "shed rent" */
      text: string;
    };

/**
 * The picture beside a front row, drawn on a ruler of its own, about 284 x 46 px. Values are in the stated unit.
 * - `difference`: a value with its range against the line of no effect. The ruler always holds 0.
 *   @example { kind: "difference", unit: "g", value: 7.3, from: 4.2, to: 10.4, zero: "no gain" }
 * - `best-dose`: the dose to use, the doses not ruled out, and the doses tried as ticks in their colour and shape.
 *   @example { kind: "best-dose", unit: "mL", use: 9, from: 5, to: 12, tried: [3, 6, 9, 12] }
 * - `losses`: one ring a tray, a cross for each that was lost; `dose` where the groups are doses, else a name.
 *   @example { kind: "losses", groups: [{ name: "3 mL", dose: 3, trays: 21, lost: 0 }, { name: "6 mL", dose: 6, trays: 21, lost: 3 }] }
 * - `cooks`: one bar a cook, in order: what was known after each. A cook without a range is a hollow ring.
 *   @example { kind: "cooks", unit: "g", zero: "no gain", cooks: [{ name: "cook 1", value: 5 }, { name: "cook 2", value: 8, from: 2, to: 14 }] }
 * - `margins`: the margin now and the margin wanted of every product, around break-even at 0; shares of the price.
 *   @example { kind: "margins", products: [{ name: "Fresh punnet 200 g", now: -0.51, wanted: 0.3 }] }
 * - `amount`: a value with its range on a ruler from 0, and other values named beside it.
 *   @example { kind: "amount", unit: "money/g", value: 0.326, from: 0.304, to: 0.351, others: [{ name: "without your time", value: 0.184 }] }
 * - `chance`: a chance reached, and the chance wanted, on a ruler from 0 to 1.
 *   @example { kind: "chance", name: "chance to see 10%", value: 0.59, wanted: 0.8 }
 * - `groups`: a mean with its range for each of 2 to 6 groups, one under the other; `dose` where they are doses, `digits` where no range
 *   says how many are known.
 *   @example { kind: "groups", unit: "money/kg", groups: [{ name: "fresh", value: 21 }, { name: "dried", value: 39 }] }
 * - `shares`: parts of a whole, longest first, at most five; `value` 0 to 1, `count` where the whole is counted.
 *   @example { kind: "shares", parts: [{ name: "yield", value: 0.4 }, { name: "shed rent", value: 0.22 }] }
 * - `measures`: one mark for each measure watched, filled where it has moved beyond chance.
 *   @example { kind: "measures", measures: [{ name: "dry weight", moved: false }, { name: "drying ratio", moved: true }] }
 */
export type Strip =
  | { kind: "difference"; unit: Unit; value: number; from?: number; to?: number; zero: string }
  | { kind: "best-dose"; unit: Unit; use: number; from: number; to: number; tried: ReadonlyArray<number> }
  | {
      kind: "losses";
      groups: ReadonlyArray<{ name: string; dose?: number; trays: number; lost: number }>;
    }
  | {
      kind: "cooks";
      unit: Unit;
      zero: string;
      cooks: ReadonlyArray<{ name: string; value: number; from?: number; to?: number }>;
    }
  | { kind: "margins"; products: ReadonlyArray<{ name: string; now?: number; wanted?: number }> }
  | {
      kind: "amount";
      unit: Unit;
      value: number;
      from?: number;
      to?: number;
      others?: ReadonlyArray<{ name: string; value: number }>;
      /** as in the figure beside it */
      digits?: number;
    }
  | { kind: "chance"; name: string; value: number; wanted: number }
  | {
      kind: "groups";
      unit: Unit;
      digits?: number;
      groups: ReadonlyArray<{ name: string; dose?: number; value: number; from?: number; to?: number }>;
    }
  | { kind: "shares"; parts: ReadonlyArray<{ name: string; value: number; count?: number }> }
  | { kind: "measures"; measures: ReadonlyArray<{ name: string; moved: boolean }> };

/**
 * Why a thing to do comes before others; the front lists at most four, one of a kind, in this order:
 * - `losing`: money is being lost now (a product sold below cost)
 * - `alarm`: the latest cooks lose more trays than usual
 * - `unread`: a line of costs or products that could not be read
 * - `doubtful`: a weight or row in doubt that could change an answer
 * - `due`: trays still growing that are due or overdue
 * - `dose`: the dose to use meanwhile, or to switch to where the answer is settled
 * - `record`: the one thing to write down that would open most questions
 * - `trial`: the next trial
 */
export type NextRank = "losing" | "alarm" | "unread" | "doubtful" | "due" | "dose" | "record" | "trial";

/**
 * One thing to do. A leaning answer advises "meanwhile", never "switch".
 * @example { rank: "losing", act: ["Reprice all four products, the punnet first."], because: ["Punnet ", { value: 6.5, unit: "money" }, " now, ", { value: 14.5, unit: "money" }, " to ask."] }
 * @example { rank: "dose", act: ["Meanwhile use ", { value: 9, unit: "mL" }, "."], because: ["It left most of the doses tried, but its range is wide."] }
 */
export interface NextStep {
  rank: NextRank;
  /** begins with a verb, at most 10 words */
  act: Sentence;
  /** one reason or figure, at most 14 words */
  because?: Sentence;
  /** what explains it: another question's id, or "tray:C1-010" for a row of the tray sheet; this question where absent */
  see?: string;
}

/**
 * What keeps a question from being answered. The report groups its waiting questions by `kind` and says each `need` once.
 * - `trays`: more trays of each dose, in more cooks
 * - `costs`: cost lines (costs.csv); `products`: what is sold (products.csv)
 * - `record`: something not written down in the sheet
 * - `vary`: something never varied, or varied together with something else
 * - `layout`: the trial's layout cannot answer it (one jar a dose, dose followed the calendar)
 */
export interface Missing {
  kind: "trays" | "costs" | "products" | "record" | "vary" | "layout";
  /**
   * What to add, as words that follow "It needs", at most 12 words.
   * @example "4 trays of each dose in each of two cooks"
   * @example "the age and transfers of each jar"
   */
  need: string;
}

/** What an answer gives for the front page and for its row, as data: words are never cut from a longer text. */
export interface AnswerFront {
  /**
   * One sentence of at most 16 words, one claim, the reader's nouns. It never repeats the figure beside it, names no method
   * and no p; "more" and "less" instead of signs. Of what cannot be answered: what is known, or why not.
   * @example ["More liquid culture gives more: ", { value: 9, unit: "mL" }, " against ", { value: 3, unit: "mL" }, "."]
   * @example ["A good dry gram, lost trays and your own time included."]
   */
  short?: Sentence;
  figure?: Figure;
  strip?: Strip;
  /** what to do because of this answer, most urgent first */
  next?: ReadonlyArray<NextStep>;
}

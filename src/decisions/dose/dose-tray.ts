/** One finished record of the book, as plain numbers. "Dose" is whatever was varied, in any unit. */
export interface DoseTray {
  dose: number;
  /** the cook (or day, or load) it came from; a record without one is left out and counted */
  cook?: string | undefined;
  /** level of what else was varied beside the dose, to be taken out; absent where nothing was */
  other?: string | undefined;
  lost: boolean;
  /** product grams of a good tray; of a pool the mean of its trays; absent when not weighed */
  grams?: number | undefined;
  /** how many trays the record holds; 1 unless a pool was weighed together */
  trays?: number | undefined;
  /** days it held its place */
  days?: number | undefined;
}

/** Money, all in one currency; what is absent is 0. */
export interface DosePrices {
  /** P: per product gram, after every cost that comes by the gram; may be 0 or less */
  perGram: number;
  /** C: per unit of dose */
  perDoseUnit?: number;
  /** G: what a good tray costs more than a lost one (picking, weighing) */
  perGoodTray?: number;
  /** S: per day of one shelf place; left out where the trays have no days */
  perShelfDay?: number;
  /** O: other cost of every started tray */
  perStartedTray?: number;
  /** r: got back for a lost tray */
  recoveredPerLostTray?: number;
}

/** Hours of work, for what an hour leaves. */
export interface DoseWork {
  hoursPerStartedTray: number;
  hoursPerGoodTray: number;
  hoursPerGram: number;
  /** own pay that the prices already take off: it is put back before dividing by hours */
  ownPayPerHour: number;
}

/** How far something outside the fit lets the decision go. */
export type DoseCertainty = "settled" | "leaning" | "open" | "cannot tell";

/** A limit set from outside: no grouping recorded, dose follows the calendar. */
export interface CertaintyCap {
  atMost: Exclude<DoseCertainty, "settled">;
  /** the caller's code; handed back as it came */
  because: string;
}

/** What the decision is made from. */
export interface DoseQuestion {
  trays: ReadonlyArray<DoseTray>;
  /** absent: a gram counts as 1 and nothing costs anything, so that the answer is which dose yields most per started tray */
  prices?: DosePrices;
  work?: DoseWork;
  caps?: ReadonlyArray<CertaintyCap>;
  settings?: {
    /** smallest step of dose that can be measured; by default that of `usualStep` */
    step?: number;
    /** the most there can be, such as 24 hours of a day: no dose beyond it is looked at */
    most?: number;
    /** share of the expected income of a started tray that does not matter, default 0.02 */
    tolerance?: number;
    /** whole number of 0 or more, default 1 */
    seed?: number;
    /** curves drawn, default 4000 */
    draws?: number;
  };
}

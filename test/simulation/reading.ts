/** What a method says of one book, compared with the truth. */
export interface Reading {
  /** says that dose makes a difference (or whatever the question asks) as settled */
  alarm: boolean;
  cannotTell: boolean;
  /** the interval of what it tells of holds the true value */
  headlineCovers: boolean;
}

/** Whether an interval holds a value. */
export const holds = (low: number, high: number, value: number): boolean => low <= value && value <= high;

/** The reading of a book of which something is reported. */
export const plainReading = (alarm: boolean, covers: boolean): Reading => ({
  alarm,
  cannotTell: false,
  headlineCovers: covers,
});

/** The reading of a book of which nothing can be said. */
export const toldNothing: Reading = { ...plainReading(false, true), cannotTell: true };

/** What a method says of one book, held against the truth. */
export interface Reading {
  /** says that dose makes a difference (or whatever the question asks) as settled */
  alarm: boolean;
  cannotTell: boolean;
  /** the interval of what it tells of holds the true value */
  headlineCovers: boolean;
  /** so do the intervals of all pairs at once */
  allPairsCover: boolean;
  /** for each dose, whether the interval of its mean holds the true mean */
  meansCover: boolean[];
}

/** Whether an interval holds a value. */
export const holds = (low: number, high: number, value: number): boolean => low <= value && value <= high;

/** A reading without intervals of means or pairs. */
export const plainReading = (alarm: boolean, covers: boolean): Reading => ({
  alarm,
  cannotTell: false,
  headlineCovers: covers,
  allPairsCover: covers,
  meansCover: [],
});

/** The reading of a book of which nothing can be told. */
export const toldNothing: Reading = { ...plainReading(false, true), cannotTell: true };

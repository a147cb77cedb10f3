/** A range that holds the true value with the stated confidence. */
export interface Interval {
  lower: number;
  upper: number;
  /** confidence level, 0 to 1, both sides together */
  level: number;
}

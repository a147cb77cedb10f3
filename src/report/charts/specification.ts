import type { TopLevelSpec } from "vega-lite";

/** A chart as plain data that vega-lite can draw, still or live, and what a reader must know beside it. */
export interface Specification {
  spec: TopLevelSpec;
  /** "600 of 4,210 trays are drawn" and the like */
  notes: string[];
}

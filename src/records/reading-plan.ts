/** How the trays of a sheet lie in it. */
export type SheetLayout = "rows" | "columns" | "long" | "cells";

/** One thing that was assumed about the shape of a sheet, and what undoes it. */
export interface ShapeAssumption {
  /** the rule's code in the log, for instance "fill-down" */
  rule: string;
  /** what was assumed, in words for people */
  says: string;
  /** columns it is about, as typed; empty for the whole table */
  columns: string[];
  /** rows or cells it touches */
  count: number;
  /** first row it touches, 0 for the whole table */
  row: number;
  /** one example as typed; "" when there is none */
  example: string;
  /** the line of settings.csv that undoes it */
  undo: { key: string; value: string };
}

/** How one table of a sheet is read, before it is known what its columns mean. Travels with the table to the log. */
export interface ReadingPlan {
  /** the sheet's path, with the workbook's tab after " > " and "(table 2)" where the sheet holds several */
  file: string;
  layout: SheetLayout;
  /** first and last line of the header, as a spreadsheet numbers them */
  headerRows: readonly [first: number, last: number];
  /** rows of data it gives */
  rows: number;
  assumptions: ShapeAssumption[];
}

import { isNothing } from "./cell-kind.ts";

/** What an example row's first cell begins with, such as no tray is named. */
export const exampleMark = "[example]";

/** Whether a row is an example of how to fill in a sheet: its first filled cell begins with the mark. */
export function isExampleRow(cells: ReadonlyArray<string>): boolean {
  const first = cells.find((cell) => !isNothing(cell));
  return first?.trim().toLowerCase().startsWith(exampleMark) === true;
}

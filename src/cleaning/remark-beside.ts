import type { Remark } from "../records/sheet.ts";

/** "* with lid" is said of the cells with that mark, which are asked by themselves. */
const ofMarkedCells = /^[*†‡§¹²³]/;
/** A longer line tells a story. */
const longest = 200;

/** The first line beside a table that says something of all its rows. @param saysOf what a line says; undefined for most */
export function remarkBeside<Says>(
  remarks: ReadonlyArray<Remark> = [],
  saysOf: (text: string) => Says | undefined,
): { text: string; says: Says } | undefined {
  for (const { cells } of remarks) {
    const text = cells.join(" ");
    const says = text.length > longest || ofMarkedCells.test(text) ? undefined : saysOf(text);
    if (says !== undefined) return { text, says };
  }
  return undefined;
}

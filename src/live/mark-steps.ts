import type { TrayMark } from "../report/charts/tray-marks.ts";

/** marks nearer than this side by side stand in one column, in units of the drawing */
const sameColumn = 8;

/** Marks in columns from left to right, each column from top to bottom. */
function columnsOf(marks: ReadonlyArray<TrayMark>): TrayMark[][] {
  const columns: TrayMark[][] = [];
  let last = Number.NEGATIVE_INFINITY;
  for (const mark of [...marks].sort((a, b) => a.x - b.x)) {
    if (mark.x - last > sameColumn) columns.push([]);
    columns.at(-1)!.push(mark);
    last = mark.x;
  }
  for (const column of columns) column.sort((a, b) => a.y - b.y || a.x - b.x);
  return columns;
}

/**
 * The mark a key leads to: up and down in a column, left and right to the next column's mark of the most equal height,
 * Home and End to the first and last column. Every mark is reached.
 * @param from where the reader stands; undefined at the start
 * @returns undefined for other keys, and where there are no marks
 */
export function markStep(
  marks: ReadonlyArray<TrayMark>,
  from: TrayMark | undefined,
  key: string,
): TrayMark | undefined {
  const columns = columnsOf(marks);
  const at = columns.findIndex((column) => column.some((mark) => mark === from));
  const column = columns[at];
  if (column === undefined || from === undefined) return columns[0]?.[0];
  const nearest = (to: number): TrayMark =>
    columns[Math.min(Math.max(to, 0), columns.length - 1)]!.reduce((best, mark) =>
      Math.abs(mark.y - from.y) < Math.abs(best.y - from.y) ? mark : best,
    );
  const row = column.indexOf(from);
  switch (key) {
    case "ArrowUp":
      return column[Math.max(0, row - 1)];
    case "ArrowDown":
      return column[Math.min(column.length - 1, row + 1)];
    case "ArrowLeft":
      return at === 0 ? from : nearest(at - 1);
    case "ArrowRight":
      return at === columns.length - 1 ? from : nearest(at + 1);
    case "Home":
      return nearest(0);
    case "End":
      return nearest(columns.length - 1);
    default:
      return undefined;
  }
}

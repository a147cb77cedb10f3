import type { ColumnReading } from "../records/book.ts";
import type { Issue } from "../records/issue.ts";

/** Puts the log in the order of file, row and column; what stands at one place keeps its order. */
export function inSheetOrder(issues: Issue[], columns: ReadonlyArray<ColumnReading>): Issue[] {
  const files = new Map([...new Set(issues.map(({ file }) => file))].sort().map((file, index) => [file, index]));
  const places = new Map<string, Map<string, number>>();
  for (const { file, header } of columns) {
    const headers = places.get(file) ?? new Map<string, number>();
    if (!headers.has(header)) headers.set(header, headers.size);
    places.set(file, headers);
  }
  const placeOf = ({ file, column }: Issue): number => places.get(file)?.get(column) ?? -1;
  return issues.sort((a, b) =>
    a.file !== b.file ? files.get(a.file)! - files.get(b.file)! : a.row - b.row || placeOf(a) - placeOf(b),
  );
}

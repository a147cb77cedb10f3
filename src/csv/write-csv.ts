import { withGuard } from "./formula-guard.ts";

/** How a sheet is written. */
export interface WriteOptions {
  /** guard cells that a spreadsheet program would run as formulas; reading removes the guard again */
  guard: boolean;
  /** between rows; CR LF as RFC 4180 has it unless given */
  newline?: "\r\n" | "\n";
}

/** Also quoted: what other dialects separate by, so that a reader that looks for the separator cannot be misled. */
function quoted(cell: string): string {
  return /[",\n;\t|]|^\s|\s$/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}

/**
 * A sheet as comma-separated text, every row ended. Line breaks inside cells become LF, so that what is read back and
 * written again is the same text.
 * @param rows cells row by row, the header among them
 * @source RFC 4180, section 2
 * @example writeCsv([["a", "b"], ["1,5", "=x"]], { guard: true, newline: "\n" }) // 'a,b\n"1,5",\'=x\n'
 */
export function writeCsv(rows: Iterable<ReadonlyArray<string>>, { guard, newline = "\r\n" }: WriteOptions): string {
  const lines: string[] = [];
  for (const row of rows) {
    const cells = row.map((cell) => {
      const oneBreak = cell.includes("\r") ? cell.replaceAll("\r\n", "\n").replaceAll("\r", "\n") : cell;
      return quoted(guard ? withGuard(oneBreak) : oneBreak);
    });
    // a row of one empty cell would otherwise read as no row at all
    lines.push(cells.length === 1 && cells[0] === "" ? '""' : cells.join(","), newline);
  }
  return lines.join("");
}

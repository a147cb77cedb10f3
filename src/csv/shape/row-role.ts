const same = (a: string, b: string): boolean => {
  if (a === b) return true;
  // most cells of data differ in their first character already (letters apart from their case)
  const first = a.charCodeAt(0);
  if (first > 32 && (first | 32) !== (b.charCodeAt(0) | 32)) return false;
  return a.length > 0 && b.length > 0 && a.replace(/\s+/g, " ").trim().toLowerCase() === b.toLowerCase();
};

/**
 * Whether a row repeats a header line: every filled cell is that column's name, and at least half the names are there.
 * @param header the line as found, tidied
 */
export function repeatsHeader(cells: ReadonlyArray<string>, header: ReadonlyArray<string>): boolean {
  let named = 0;
  let there = 0;
  for (let column = 0; column < Math.max(cells.length, header.length); column++) {
    const name = header[column] ?? "";
    const cell = cells[column] ?? "";
    if (name !== "") named++;
    if (cell === "" || (cell.trim() === "" && name === "")) continue;
    if (!same(cell, name)) return false;
    there++;
  }
  return there > 0 && there >= named / 2;
}

/** Whether every cell is empty or white space. */
export function isBlank(cells: ReadonlyArray<string>): boolean {
  for (const cell of cells) if (cell !== "" && cell.trim() !== "") return false;
  return true;
}

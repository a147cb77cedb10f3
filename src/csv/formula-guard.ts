/** Characters at the start of a cell that make spreadsheet programs run it as a formula, full-width forms too. */
const starter = "[=+\\-@\\t\\n＝＋－＠]";
const guarded = new RegExp(`^'+${starter}`);
const dangerous = new RegExp(`^${starter}`);
const plainNumber = /^[+-]?(?:\d+(?:[.,]\d+)?|[.,]\d+)(?:e[+-]?\d+)?$/i;

/**
 * Puts an apostrophe before a cell that a spreadsheet program would run as a formula. Plain numbers stay as they are.
 * A cell that already reads as guarded gets one more, so that `withoutGuard` gives back every cell exactly.
 * @source OWASP, CSV Injection, https://owasp.org/www-community/attacks/CSV_Injection
 * @example withGuard("=1+1") // "'=1+1"
 */
export function withGuard(cell: string): string {
  return guarded.test(cell) || (dangerous.test(cell) && !plainNumber.test(cell)) ? `'${cell}` : cell;
}

/**
 * Removes exactly the apostrophe that `withGuard` puts.
 * @example withoutGuard("'=1+1") // "=1+1"
 */
export function withoutGuard(cell: string): string {
  return guarded.test(cell) ? cell.slice(1) : cell;
}

const somewhere = new RegExp(`'${starter}`);

/** Whether any cell of a stretch of a sheet's text can carry a guard; false for most, and quick to find out. */
export const mayHoldGuards = (text: string): boolean => somewhere.test(text);

/** What a spreadsheet program passes over before it looks whether a cell is a formula: blanks, control and zero-width characters. */
const passedOver =
  "[\\s\\u0000-\\u001f\\u007f-\\u00a0\\u00ad\\u180e\\u200b-\\u200f\\u2028-\\u202f\\u205f-\\u206f\\u3000\\ufeff]*";
/** Characters that make a cell a formula, full-width forms too. */
const sign = "[=+\\-@＝＋－＠]";
const starter = `(?:${passedOver}${sign}|[\\t\\n])`;
const guarded = new RegExp(`^'+${starter}`);
const dangerous = new RegExp(`^${starter}`);
const plainNumber = /^[+-]?(?:\d+(?:[.,]\d+)?|[.,]\d+)(?:e[+-]?\d+)?$/i;

const number = "\\d*[.,]?\\d+(?:e[+-]?\\d+)?\\s*(?:[;\\t|]|$)";
/** A cell's start inside a cell, where the file is opened with another separator; signed numbers are none. */
const inside = `([;\\t|]${passedOver})('*)(?=[=@＝＠]|[+\\-＋－](?!${number}))`;
const insideAny = new RegExp(inside, "g");
const insideGuarded = new RegExp(inside.replace("('*)", "'('*)"), "g");
const separator = /[;\t|]/;

/**
 * Puts an apostrophe before a cell that a spreadsheet program would run as a formula, and inside a cell where it would
 * become one in a file opened with another separator. Plain numbers stay as they are. What already reads as guarded gets one
 * more, so that `withoutGuard` gives back every cell exactly.
 * @source OWASP, CSV Injection, https://owasp.org/www-community/attacks/CSV_Injection
 * @example withGuard("=1+1") // "'=1+1"
 */
export function withGuard(cell: string): string {
  const own = separator.test(cell) ? cell.replace(insideAny, "$1'$2") : cell;
  return guarded.test(own) || (dangerous.test(own) && !plainNumber.test(own)) ? `'${own}` : own;
}

/**
 * Removes exactly the apostrophes that `withGuard` puts.
 * @example withoutGuard("'=1+1") // "=1+1"
 */
export function withoutGuard(cell: string): string {
  const own = guarded.test(cell) ? cell.slice(1) : cell;
  return separator.test(own) ? own.replace(insideGuarded, "$1$2") : own;
}

const somewhere = new RegExp(`'${starter}`);

/** Whether any cell of a stretch of a sheet's text can carry a guard; false for most, and quick to find out. */
export const mayHoldGuards = (text: string): boolean => text.includes("'") && somewhere.test(text);

const currency = "[$€£¥₹]";
const value = new RegExp(`^[~≈<>≤≥=+\\-−(±]*\\s*(?:${currency}\\s*)?[\\d½¼¾⅓⅔⅛.,]`, "u");
const code = /^\p{L}{1,3}[-_ #./]?\d[\d\p{L}\-_./]*$/u;
const errorCell = /^#(?:REF!|N\/A|DIV\/0!|VALUE!|NAME\?|NUM!|NULL!|SPILL!)$/i;
const monthFirst = /^(?:\p{L}{3,9}\.?,? )?\p{L}{3,9}\.? \d{1,2},? \d{2,4}$/u;
const missing = /^(?:-+|–|—|n\/?a|none|null|nan|\?+)$/i;

/**
 * Whether a cell reads like data rather than like the name of a column: a number with or without units, a date,
 * an item code ("C1-001"), a spreadsheet error, or a mark for a missing value.
 * @param cell trimmed and not empty
 */
export function isValueLike(cell: string): boolean {
  return (
    (value.test(cell) && /\d|[½¼¾⅓⅔⅛]/.test(cell)) ||
    code.test(cell) ||
    errorCell.test(cell) ||
    monthFirst.test(cell) ||
    missing.test(cell)
  );
}

/**
 * Whether a cell reads like the name of a column: it has a letter (or is a lone sign such as # or %), is short, and is not data.
 * @param cell trimmed and not empty
 */
export function isLabelLike(cell: string): boolean {
  return cell.length <= 80 && (/\p{L}/u.test(cell) || /^[#%°€$£№]$/u.test(cell)) && !isValueLike(cell);
}

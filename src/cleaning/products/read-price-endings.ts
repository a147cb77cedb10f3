import type { RowCells } from "../side-sheets/row-cells.ts";

/**
 * Reads the endings a price may have: "0.50; 0.90", ".49 / .99", "0,50 0,90", "99" (of a hundredth), "x.90".
 * @param decimals of the currency's smallest coin
 * @returns endings from 0 up to but not 1, in order; none when the cell is empty or holds none
 */
export function readPriceEndings<K extends string>(row: RowCells<K>, key: K, decimals: number): number[] {
  const text = row.text(key);
  const endings: number[] = [];
  for (const part of text.split(/[;|/&\s]|,(?=\s)|and|or/i).filter((piece) => piece !== "")) {
    const plain = part.replace(/^[a-z_*#…]+(?=[.,]\d)/i, "").replace(",", ".");
    const value = /^\d*\.?\d+$/.test(plain) ? Number(plain) : Number.NaN;
    const ending = /^\d+$/.test(plain) ? value / 10 ** decimals : value;
    if (!(ending < 1)) {
      row.say(key, {
        rule: "not-a-price-ending",
        reason: "a price ending is what is typed behind the decimal mark",
        expected: "endings such as 0.50; 0.90",
        action: "Type the endings with semicolons between them, or leave the cell empty",
        raw: part,
      });
    } else endings.push(Number(ending.toFixed(6)));
  }
  return [...new Set(endings)].sort((a, b) => a - b);
}

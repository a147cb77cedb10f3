import type { RawTable } from "../../records/sheet.ts";
import { fold } from "../../records/words/fold.ts";
import { saysWithoutTax } from "../../records/words/money-words.ts";

// In the eight languages, from memory.
const otherUnit =
  /\b(?:in|as|en|em|w) (?:thousands?|1000s?|cents?|pence|tausend\w*|tsd|milliers?|centimes?|miles|centavos?|centimos?|migliaia|centesimi|duizend\w*|tys\w*|grosz\w*|milhares)\b|\bx 1000\b|^(?:thousands|cents|pence|tausend|cent|centimes|centavos|grosze)$/;
/** What a line beside the rows of a sheet of money says of it all. */
export interface MoneyRemark {
  text: string;
  says: "other unit" | "without tax";
}

function saysOfMoney(text: string): MoneyRemark | undefined {
  const folded = text.length > 200 ? "" : fold(text);
  if (otherUnit.test(folded)) return { text, says: "other unit" };
  return saysWithoutTax(folded) ? { text, says: "without tax" } : undefined;
}

/** What the text of a row with nothing else in it says so. */
export function moneyLine(cells: ReadonlyArray<string>): MoneyRemark | undefined {
  const [text, ...others] = cells.filter((cell) => cell.trim() !== "");
  return text === undefined || others.length > 0 ? undefined : saysOfMoney(text);
}

/** The first line above, between or under the rows that says its money is in thousands or cents, or without tax. */
export function moneyRemark({ remarks = [], forEachRow }: RawTable): MoneyRemark | undefined {
  let found: MoneyRemark | undefined;
  for (const { cells } of remarks) found ??= saysOfMoney(cells.join(" "));
  forEachRow((cells) => {
    found ??= moneyLine(cells);
  });
  return found;
}

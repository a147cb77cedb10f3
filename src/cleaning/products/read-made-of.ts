import type { MadeOf, ProductForm, ProductPart } from "../../records/product.ts";
import { wordChoice } from "../side-sheets/word-choice.ts";
import type { ProductRow } from "./product-columns.ts";

const weight = wordChoice<"fresh" | "dried">({
  fresh: "fresh mushrooms|fresh weight|fresh g|fresh grams|wet",
  dried: "dry|dried mushrooms|dry weight|dried weight|dry g|dry grams|dried grams",
});

const counted = /^(\d+(?:[.,]\d+)?)\s*[x×*]\s*(.+)/iu;
const countedBehind = /(.+?)\s*[x×*]\s*(\d+(?:[.,]\d+)?)$/iu;

/** "2 x filter bag" is two of the line filter bag; a name alone is one. */
function partOf(text: string): ProductPart {
  const part = (name: string, count: string): ProductPart => ({ name, count: Number(count.replace(",", ".")) });
  const before = counted.exec(text);
  if (before !== null) return part(before[2]!, before[1]!);
  const behind = countedBehind.exec(text);
  return behind === null ? part(text, "1") : part(behind[1]!, behind[2]!);
}

/**
 * Reads what a unit is made of: "fresh", "dried", or cost lines and other products with semicolons between them, each
 * with how many where that is not one: "culture jar; 2 x label" is one culture jar and two labels.
 * @returns undefined where the cell is empty; the form then decides, and a form that does not makes the row fail
 */
export function readMadeOf(row: ProductRow, form: ProductForm | undefined): MadeOf | undefined {
  const text = row.text("made_of");
  if (text === "") {
    if (form === "other") {
      row.say("made_of", {
        rule: "missing-made-of",
        reason: "what a unit is made of is not stated, so it has no cost",
        expected: "fresh, dried, or the names of cost lines and products, such as culture jar; 2 x label",
        action: "Type what it is made of",
      });
    }
    return undefined;
  }
  const grams = weight.find(text);
  if (grams !== undefined) return grams.answer;
  const parts = text
    .split(/[;+\n]/)
    .map((piece) => piece.trim())
    .filter((piece) => piece !== "")
    .map(partOf);
  if (parts.length === 0 || parts.some(({ count }) => count === 0)) {
    return row.say("made_of", {
      rule: "not-made-of",
      reason: "no part is named, or there are none of one",
      expected: "names of cost lines and products, such as culture jar; 2 x label",
      action: "Correct the parts",
    });
  }
  return parts;
}

import type { QuantityDiscount } from "../../records/product.ts";
import type { ProductRow } from "./product-columns.ts";

const piecesOf = (text: string): string[] =>
  text
    .split(/[;|\n]|,\s/)
    .map((piece) => piece.trim())
    .filter((piece) => piece !== "");

/** "10% off 5 or more", "5% from 3". */
const inWords =
  /^(\d[\d.,]* ?%)(?: off)?(?: (?:for|from|on|at|when (?:you )?buy(?:ing)?|ab|dès|desde|da|vanaf|od))? (\d+)(?: ?\+| or more| and up| up)?$/iu;

/**
 * Reads lower prices for larger orders: one step, or several with semicolons between them, "5; 10" with "5 %; 8 %".
 * @returns steps with the smallest order first; none where there is no discount
 */
export function readQuantityDiscounts(row: ProductRow): QuantityDiscount[] {
  const [, share = "", least = ""] = inWords.exec(row.text("quantity_discount_pct")) ?? [];
  if (share !== "" && !row.has("minimum_quantity")) row.take({ quantity_discount_pct: share, minimum_quantity: least });
  const discounts = piecesOf(row.text("quantity_discount_pct"));
  if (discounts.length === 0) return [];
  const isOfOrders =
    row.has("minimum_quantity") || /quantity|bulk|volume|wholesale/i.test(row.headerText("quantity_discount_pct"));
  if (!isOfOrders && /[1-9]/.test(row.text("quantity_discount_pct"))) {
    row.say("quantity_discount_pct", {
      rule: "discount-of-what",
      reason: "whether every sale has the discount is not said: the price counts without it",
      expected: "the price that is paid, or the smallest order that has the discount under minimum_quantity",
      action: "Type the price after the discount and empty this cell, or type the smallest order that has it",
      severity: "warning",
    });
  }
  const quantities = row.has("minimum_quantity") ? piecesOf(row.text("minimum_quantity")) : ["1"];
  if (quantities.length !== discounts.length) {
    row.say("quantity_discount_pct", {
      rule: "steps-do-not-match",
      reason: `there are ${quantities.length} quantities and ${discounts.length} discounts`,
      expected: "as many discounts as quantities, such as 5; 10 and 5 %; 8 %",
      action: "Type one discount for each quantity",
    });
    return [];
  }
  const steps = quantities.flatMap((typed, index): QuantityDiscount[] => {
    const from = row.within(
      "minimum_quantity",
      row.quantity("minimum_quantity", typed, "number"),
      { least: 1 },
      "the quantity",
    );
    const discount = row.within(
      "quantity_discount_pct",
      row.quantity("quantity_discount_pct", discounts[index]!, "percent"),
      { least: 0, most: 0.99 },
      "the discount",
    );
    if (from !== undefined && discount !== undefined) return [{ from, discount }];
    // one that says that it is not known
    if (!row.failed)
      row.say("quantity_discount_pct", {
        rule: "step-not-known",
        reason: "a quantity or its discount is not known",
        expected: "a quantity and a discount for each step",
        action: "Type both, or take the step out",
      });
    return [];
  });
  return steps.sort((a, b) => a.from - b.from);
}

import type { Product } from "./product.ts";
import type { Tray } from "./tray.ts";
import type { UnreadMoney } from "./unread-money.ts";

/** Which weight a book's yields are reported in. */
export type YieldWeight = "dry" | "fresh";

/** A book as far as it says which weight its yields are in. */
export interface Weighed {
  trays: ReadonlyArray<Tray>;
  products?: ReadonlyArray<Product> | undefined;
  unread?: ReadonlyArray<UnreadMoney> | undefined;
}

/** Whether products, as far as products.csv could be read, are all plain fresh mushrooms, or some made of dried ones. */
function soldAs({ products = [], unread = [] }: Pick<Weighed, "products" | "unread">): YieldWeight | undefined {
  if (products.some(({ form, madeOf = form }) => madeOf !== "fresh")) return "dry";
  return products.length === 0 || unread.some(({ sheet, inUse }) => sheet === "products" && !inUse)
    ? undefined
    : "fresh";
}

/**
 * Share of the fresh weights that dry ones have to reach to tell as much. Trays treated alike differ by some 18 % dry, and by
 * some 20 % fresh, as water differs, too (common practice, no source): (18 / 20)² is a little more than this.
 */
const asTelling = 0.8;

/**
 * Chooses the weight that tells most of the trays: dry, because it does not depend on how wet the pick was, unless too few
 * trays have one. What is sold comes first: dried goods leave it dry where half of the trays have dry weights, and where
 * nothing but fresh mushrooms is sold, dry weights are a check.
 * @returns undefined where no good tray has a weight
 */
export function yieldWeightOf(book: Weighed): YieldWeight | undefined {
  let [dry, fresh] = [0, 0];
  for (const { outcome, dryGrams, freshGrams } of book.trays) {
    if (outcome !== "good") continue;
    if (dryGrams !== undefined) dry++;
    if (freshGrams !== undefined) fresh++;
  }
  if (dry === 0 && fresh === 0) return undefined;
  const sold = soldAs(book);
  if (sold === "fresh" && fresh >= dry / 2) return "fresh";
  return dry < fresh * (sold === "dry" ? 0.5 : asTelling) ? "fresh" : "dry";
}

/** Grams of a tray, of a pool the mean of its trays; undefined where it has no such weight. */
export function gramsOf({ dryGrams, freshGrams, traysInPool }: Tray, weight: YieldWeight): number | undefined {
  const grams = weight === "dry" ? dryGrams : freshGrams;
  return grams === undefined ? undefined : grams / traysInPool;
}

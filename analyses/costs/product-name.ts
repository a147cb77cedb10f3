import type { Product } from "../../src/records/product.ts";

/** A product with its channel, as it is written in tables and sentences. */
export const productName = ({ product, channel }: Pick<Product, "product" | "channel">): string =>
  channel === "" ? product : `${product}, ${channel}`;

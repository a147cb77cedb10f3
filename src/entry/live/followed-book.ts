import type { Book } from "../../records/book.ts";

/** Which parts of a book a question looked at. */
export interface Looked {
  costs: boolean;
  products: boolean;
  /** settings by property */
  settings: Set<string>;
}

/** A thing that tells when it is looked at. */
function followed<T extends object>(thing: T, tell: (property: string) => void): T {
  return new Proxy(thing, {
    get: (target, property, receiver) => {
      if (typeof property === "string") tell(property);
      return Reflect.get(target, property, receiver) as unknown;
    },
    ownKeys: (target) => {
      for (const key of Object.keys(target)) tell(key);
      return Reflect.ownKeys(target);
    },
  });
}

/** A book that notes which of its parts are looked at, so that an answer is worked out again only where one of them changed. */
export function followedBook(book: Book): { book: Book; looked: Looked } {
  const looked: Looked = { costs: false, products: false, settings: new Set() };
  const { costLines, products, settings } = book;
  return {
    looked,
    book: {
      ...book,
      settings: followed(settings, (property) => void looked.settings.add(property)),
      ...(costLines === undefined
        ? {}
        : {
            costLines: followed(costLines, () => {
              looked.costs = true;
            }),
          }),
      ...(products === undefined
        ? {}
        : {
            products: followed(products, () => {
              looked.products = true;
            }),
          }),
    },
  };
}

/** The parts of a book that were looked at, as a text that is the same where they are. */
export function stateOf(
  book: Book,
  partNames: Readonly<Record<"trays" | "costs" | "products", string>>,
  looked: Looked,
): string {
  const settings = [...looked.settings]
    .sort()
    .map((property) => [property, (book.settings as unknown as Record<string, unknown>)[property] ?? null]);
  return JSON.stringify([
    partNames.trays,
    looked.costs ? partNames.costs : "",
    looked.products ? partNames.products : "",
    settings,
  ]);
}

import type { Book } from "../../records/book.ts";
import type { Settings } from "../../records/setting.ts";

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

/**
 * A book that notes which of its parts are looked at, so that an answer is worked out again only where one of them changed.
 * Questions asked of it share what they work out. Costs and products are noted question by question; a setting that one
 * question looked at may stand behind what the next one finds worked out already, so settings are noted for all together.
 */
export class FollowedBook {
  readonly book: Book;
  private looked: Looked = { costs: false, products: false, settings: new Set() };
  /** the settings as they were given, as they are followed, and by property what was looked at so far */
  private readonly settings: { given: Settings; followed: Settings; seen: Set<string> };

  /** @param before followed earlier: where it has the very same settings, what was worked out with them still counts */
  constructor(book: Book, before?: FollowedBook) {
    const { costLines, products, settings } = book;
    if (before !== undefined && before.settings.given === settings) this.settings = before.settings;
    else {
      const seen = new Set<string>();
      this.settings = { given: settings, seen, followed: followed(settings, (property) => void seen.add(property)) };
    }
    const note = (part: "costs" | "products") => () => {
      this.looked[part] = true;
    };
    this.book = {
      ...book,
      settings: this.settings.followed,
      ...(costLines === undefined ? {} : { costLines: followed(costLines, note("costs")) }),
      ...(products === undefined ? {} : { products: followed(products, note("products")) }),
    };
  }

  /** Lets one question look at the book. @returns what it found, and what that hangs on */
  let<T>(look: (book: Book) => T): { found: T; looked: Looked } {
    this.looked = { costs: false, products: false, settings: new Set() };
    const found = look(this.book);
    return { found, looked: { ...this.looked, settings: new Set(this.settings.seen) } };
  }
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

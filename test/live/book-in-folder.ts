import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { cleanBook } from "../../src/cleaning/clean-book.ts";
import type { Book } from "../../src/records/book.ts";
import { sheet } from "../cleaning/book-of.ts";

/** The cleaned book of one of the repository's folders. */
export async function bookInFolder(folder: string): Promise<Book> {
  const root = fileURLToPath(new URL(`../../${folder}/`, import.meta.url));
  const paths = readdirSync(root, { recursive: true, encoding: "utf8" }).filter((path) => path.endsWith(".csv"));
  const sources = paths.map((path) => sheet(path.replaceAll("\\", "/"), readFileSync(`${root}${path}`)));
  return cleanBook(sources, { name: folder.split("/").at(-1)! });
}

import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Book } from "../records/book.ts";
import type { LiveParts } from "../report/live-scripts.tsx";
import { type BuiltLive, livePartsOf, mostLiveTrays } from "./model/book-parts.ts";

/** Beside the built program; for sources that run as they are, in the folder the build writes to. */
const places = ["./live.json", "../../dist/live.json"];

/**
 * What makes a book's report live, for `renderReport`. The program is the same for every book; the data are the book's.
 * @returns undefined for a book of more than `mostLiveTrays` trays
 * @throws Error if the program was not built
 */
export function liveParts(book: Book): LiveParts | undefined {
  if (book.trays.length > mostLiveTrays) return undefined;
  const file = places.map((place) => fileURLToPath(new URL(place, import.meta.url))).find((path) => existsSync(path));
  if (file === undefined) throw new Error("liveParts: live.json is missing; run the build");
  return livePartsOf(book, JSON.parse(readFileSync(file, "utf8")) as BuiltLive);
}

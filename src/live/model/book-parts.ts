import type { Book } from "../../records/book.ts";
import type { LiveParts } from "../../report/live-scripts.tsx";
import { liveStyle } from "../live-style.ts";
import { packText } from "../packed-text.ts";
import { writeBookData } from "./book-data.ts";

/** books with more trays than this are written without live sheets: the file would grow past what is easily sent */
export const mostLiveTrays = 5000;

/** What is the same for every live report. */
export type BuiltLive = Pick<LiveParts, "script"> & Required<Pick<LiveParts, "program" | "programHash">>;

/**
 * What makes a book's report live, for `renderReport`.
 * @returns undefined for a book of more than `mostLiveTrays` trays
 */
export const livePartsOf = (book: Book, built: BuiltLive): LiveParts | undefined =>
  book.trays.length > mostLiveTrays ? undefined : { ...built, styles: liveStyle, data: packText(writeBookData(book)) };

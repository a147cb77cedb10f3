import { numberLocale } from "./worker/readers-locale.ts";

/** How this page writes numbers: as the reader's browser does, with the digits 0 to 9. */
export const pageLocale = numberLocale(navigator.language) ?? "en-GB";

/** A number of the page's own. */
export const pageNumber = (value: number): string => value.toLocaleString(pageLocale);

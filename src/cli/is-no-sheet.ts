/** Endings of files that people keep beside their sheets, and of what this program writes itself. */
const otherEndings = /\.(html?|md|pdf|png|jpe?g|gif|docx?|bak|tmp|json)$/i;

/**
 * Whether a file's name says that it is not a sheet: hidden files, the locks that spreadsheet programs lay beside an open
 * file, half-loaded files, and other kinds of document.
 * @param name without its folder
 * @example isNoSheet("~$spring.xlsx") // true
 */
export const isNoSheet = (name: string): boolean =>
  name.startsWith(".") || name.startsWith("~") || /\.(crdownload|part|partial)$/i.test(name) || otherEndings.test(name);

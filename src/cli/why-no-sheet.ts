/** Endings of files that people keep beside their sheets, and of what this program writes itself. */
const otherEndings = /\.(html?|md|pdf|png|jpe?g|gif|docx?|json|lock)$/i;

/**
 * Why a file's name says that it is not a sheet; undefined where it does not.
 * @param name without its folder
 * @example whyNoSheet("~$spring.xlsx") // "a spreadsheet program's lock, not a sheet"
 */
export function whyNoSheet(name: string): string | undefined {
  if (/^(~\$|\.~lock)/.test(name)) return "a spreadsheet program's lock, not a sheet";
  if (name.startsWith(".")) return "hidden files are not read";
  if (name.startsWith("~") || /(\.(bak|old|orig|tmp|sw[op])|~)$/i.test(name)) return "a backup, not a sheet";
  if (/\.(crdownload|part|partial)$/i.test(name)) return "not loaded to its end";
  return otherEndings.test(name) ? "another kind of document, not a sheet" : undefined;
}

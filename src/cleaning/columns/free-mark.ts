const mark = " (free column)";

/** The name of a free column: its header, without the mark that keeps it one in a cleaned sheet. */
export const freeName = (header: string): string =>
  header.toLowerCase().endsWith(mark) ? header.slice(0, -mark.length) : header;

/** Whether a header says of itself that it is no field. */
export const isMarkedFree = (header: string): boolean => header.toLowerCase().endsWith(mark);

/** The header of a free column whose name alone would be taken for a field. */
export const markedFree = (name: string): string => `${name}${mark}`;

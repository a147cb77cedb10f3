/** Whether a UTF-16 unit is one of 0 to 9. */
export const isDigit = (code: number): boolean => code >= 48 && code <= 57;

/** A whole number of at least two digits. @example twoDigits(7) // "07" */
export const twoDigits = (value: number): string => String(value).padStart(2, "0");

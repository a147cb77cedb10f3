/** The order of day and month that a date, with its year or without, shows by a number above 12; "" when it shows none. */
export function dateOrderEvidence(text: string): "" | "day first" | "month first" {
  if (dashedNumbers(text) !== undefined) return "";
  const match =
    /^\D*?(\d{1,2})\s*[./\s-]\s*(\d{1,2})\s*[./\s-]\s*'?(?:\d{2}|\d{4})(?!\d)/.exec(text) ??
    /^\s*(\d{1,2})\s*[./-]\s*(\d{1,2})\.?\s*$/.exec(text);
  if (match === null) return "";
  const [first, second] = [Number(match[1]), Number(match[2])];
  if (first > 12 && first <= 31 && second <= 12) return "day first";
  return second > 12 && second <= 31 && first <= 12 ? "month first" : "";
}

/** The three numbers of a date such as "26-01-14", whose year can stand at either end; undefined for any other text. */
export function dashedNumbers(text: string): [first: number, second: number, third: number] | undefined {
  const match = /^\s*(\d{2})-(\d{1,2})-(\d{2})\s*$/.exec(text);
  return match === null ? undefined : [Number(match[1]), Number(match[2]), Number(match[3])];
}

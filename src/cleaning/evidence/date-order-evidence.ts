/** The order of day and month that a date shows by a number above 12; "" when it shows none. */
export function dateOrderEvidence(text: string): "" | "day first" | "month first" {
  const match = /^\D*?(\d{1,2})\s*[./\s-]\s*(\d{1,2})\s*[./\s-]\s*'?(?:\d{2}|\d{4})(?!\d)/.exec(text);
  if (match === null) return "";
  const [first, second] = [Number(match[1]), Number(match[2])];
  if (first > 12 && first <= 31 && second <= 12) return "day first";
  return second > 12 && second <= 31 && first <= 12 ? "month first" : "";
}

import { dayNumber } from "../measures/day-number.ts";
import { PlainFailure } from "./plain-failure.ts";

/** Today where this machine or reader is, as an ISO date. */
export function today(): string {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
}

/**
 * A date as an option gives it.
 * @param example a date such as is meant, ISO 8601
 * @throws PlainFailure unless the text is a date
 */
export function dateOption(option: string, text: string, example: string): string {
  try {
    dayNumber(text);
    return text;
  } catch {
    throw new PlainFailure(`${option}: give a date as year-month-day, such as ${example}; received ${text}.`);
  }
}

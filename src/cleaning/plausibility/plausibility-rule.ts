import type { HarvestFieldKey } from "../../records/harvest-field.ts";
import type { Settings } from "../../records/setting.ts";
import type { Tray } from "../../records/tray.ts";
import type { BookMeasures } from "./book-measures.ts";

/** Something doubtful about a tray. The flag never changes a number. */
export interface Finding {
  /** the field the entry stands at */
  field: HarvestFieldKey;
  /** what was found, as text */
  raw: string;
  /** why it is doubtful, without the tray's own numbers */
  reason: string;
  expected: string;
  action: string;
  /** the key in settings.csv that sets the limit */
  setting?: string;
}

/** One way a tray's facts can be doubtful though each cell was read well. Listed in `plausibility/index.ts`. */
export interface PlausibilityRule {
  /** what the log and the tray's flags call it, in kebab case, unique */
  code: string;
  /** the settings it looks at: a book with others of them has to be checked again */
  settings: ReadonlyArray<keyof Settings>;
  /** true for what cannot be at all, which is an error rather than a flag */
  impossible?: true;
  /** @param at the tray's place among those the book was measured by; @returns what is doubtful, or nothing */
  check(tray: Tray, book: BookMeasures, at: number): ReadonlyArray<Finding>;
}

/** What a check finds in most trays. */
export const nothingFound: ReadonlyArray<Finding> = Object.freeze([]);

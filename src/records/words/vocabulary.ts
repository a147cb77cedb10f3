import type { CostBase, CostKind, costColumns } from "../cost-line.ts";
import type { HarvestFieldKey } from "../harvest-field.ts";
import type { ProductForm, productColumns } from "../product.ts";

/** The languages growers' words are known in. */
export type Language = "en" | "de" | "fr" | "es" | "it" | "nl" | "pl" | "pt";

/** How a row that sums up others is labelled. */
export type SummaryKind = "sum" | "mean" | "median" | "count" | "spread";

/**
 * What a word says of a tray: how it ended, that it grows on, that what was picked is "drying", that something is
 * "pending", or that it is "spent": nothing more will come, which is no loss where it was picked from.
 */
export type TrayWord = "good" | "contaminated" | "failed" | "discarded" | "growing" | "drying" | "pending" | "spent";

/** How a cell says that it holds nothing. */
export type MissingWordKind = "not applicable" | "unknown" | "not weighed";

/**
 * What growers write in one language. Lists are parted by "|"; words of one month, number or ordinal by ",". Case,
 * accents and punctuation never matter (see `fold`).
 */
export interface Vocabulary {
  language: Language;
  /** names of columns, in any word order; a leading "?" marks a name that says little and gives way to a better one, "="
   * one that counts only word for word */
  fields: Readonly<Record<HarvestFieldKey, string>>;
  /** words of a header that mean the same as an English one */
  sameWords: Readonly<Record<string, string>>;
  /** words of a header that carry no meaning of their own */
  filling: string;
  /** further such words where a header is asked as a question, as in a form */
  formFilling: string;
  outcomes: Readonly<Record<TrayWord, string>>;
  /** words for good that say that the tray was picked, weighed or not */
  picked: string;
  /** words of loss that mean other things in prose ("green bag", "lid broken"): in a note they decide only by themselves */
  unsure: string;
  /** everyday words that are a letter away from one of loss: "injected", "checked" */
  likeLosses: string;
  /** what turns a loss into none: before its word ("no mold") or after it ("mold free") */
  negations: Readonly<Record<"before" | "after", string>>;
  /** words behind which a negation no longer holds: "not much, but green" */
  scopeEnds: string;
  /** words that doubt what they are next to, or say that it is of another tray or only of its lid */
  doubt: string;
  yes: string;
  no: string;
  missing: Readonly<Record<MissingWordKind, string>>;
  /** 0 to 12 */
  numbers: string;
  /** January to December, with abbreviations and cases */
  months: string;
  /** Monday to Sunday, with abbreviations */
  weekdays: string;
  summaries: Readonly<Record<SummaryKind, string>>;
  /** names of a picking */
  flushes: string;
  /** first to fifth */
  ordinals: string;
  /** "each", "per tray" */
  each: string;
  /** "and", "plus" between two amounts or names */
  joins: string;
  /** "to" between the ends of a range */
  ranges: string;
  /** things that are weighed along */
  tare: string;
  /** "with", "including" before such a thing */
  withWords: string;
  /** what a tray is called, one of them */
  tray: string;
  /** "seen", "found" behind a negated word: "mold not seen" */
  seen: string;
  /** "or", "nor": what they join shares a negation */
  ors: string;
  money: MoneyWords;
}

/** What is written in sheets of costs and of products: their columns, and the words of those that hold a choice. */
export interface MoneyWords {
  costs: Readonly<Partial<Record<(typeof costColumns)[number], string>>>;
  products: Readonly<Partial<Record<(typeof productColumns)[number], string>>>;
  kinds: Readonly<Partial<Record<CostKind, string>>>;
  bases: Readonly<Partial<Record<CostBase, string>>>;
  forms: Readonly<Partial<Record<ProductForm, string>>>;
}

import type { Conventions, QuantityKind, QuantityReading } from "../values/quantity-reading.ts";

/** What a rule makes of the text that the rules before it left. */
export type RuleStep =
  /** nothing for this rule here */
  | { kind: "keep" }
  /** the text is read as another one, and the next rules go on with it; `approximate` marks the number that will be found */
  | { kind: "rewrite"; text: string; reason: string; approximate?: boolean }
  /** the cell is read; the reason is that of the rule, earlier changes are added by the caller */
  | { kind: "settle"; reading: QuantityReading; reason: string };

/** What a rule may look at besides the text. */
export interface RuleContext {
  kind: QuantityKind;
  conventions: Readonly<Conventions>;
  /** reads a part of the cell by the rules that come after this one */
  read(part: string): QuantityReading;
}

/** One way people type a number that is not plain. A pure function with a code; listed in `rules/index.ts`. */
export interface CleaningRule {
  /** what the log calls it, in kebab case, unique */
  code: string;
  /** the kinds of column it looks at */
  kinds: ReadonlyArray<QuantityKind> | "every kind";
  apply(text: string, context: RuleContext): RuleStep;
}

/** The step of a rule with nothing to say. */
export const keep: RuleStep = Object.freeze({ kind: "keep" });

/** The cell cannot be read as a number of its kind. */
export const unreadable = (expected: string, reason: string): RuleStep => ({
  kind: "settle",
  reading: { kind: "unreadable", expected, changes: [] },
  reason,
});

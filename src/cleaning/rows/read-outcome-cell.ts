import { wordsOf } from "../../records/words/header-words.ts";
import { missingWord, whyMissing } from "../rules/missing-word.ts";
import { isOutcome, readOutcome } from "../values/outcome-words.ts";
import { type CellFact, nothing } from "./cell-fact.ts";

const yes = /^(?:y|yes|ja|oui|si|sí|true|x|1|✓|✔)$/i;
const no = /^(?:n|no|nein|non|false|0)$/i;
const expected = "good, contaminated, failed, discarded or growing";

/** What yes means under a header that asks a question: "Contaminated?", "Success"; undefined when it asks none. */
export function questionOf(header: string): "contaminated" | "good" | undefined {
  const words = wordsOf(header);
  if (words.some((word) => /^contam/.test(word))) return "contaminated";
  return words.some((word) => /^(?:success|ok|good|clean)/.test(word)) ? "good" : undefined;
}

/**
 * What a cell of a column of outcomes says.
 * @param text not empty
 * @param question what yes means in this column
 */
export function readOutcomeCell(text: string, question: "contaminated" | "good" | undefined): CellFact {
  if (isOutcome(text)) return { outcome: text };
  const word = text.trim();
  const base = { result: "", expected: "", action: "" };
  if (question !== undefined && (yes.test(word) || no.test(word))) {
    const outcome = yes.test(word) ? question : question === "good" ? "failed" : undefined;
    const reason =
      outcome === undefined
        ? "not contaminated; what else became of it, the other columns tell"
        : "the answer to the question in the header";
    return {
      ...(outcome === undefined ? {} : { outcome }),
      remark: { ...base, rule: "outcome-word", severity: "change", reason, result: outcome ?? "" },
    };
  }
  const how = missingWord(text);
  if (how === "blank") return nothing;
  if (how !== undefined)
    return { remark: { ...base, rule: "missing-word", severity: "change", reason: whyMissing(how) } };
  const found = readOutcome(word);
  if (found === undefined) {
    return {
      remark: {
        ...base,
        rule: "not-an-outcome",
        severity: "warning",
        reason: "no word in it says what became of the tray, so the other columns are asked",
        expected,
        action: `Type ${expected}`,
      },
    };
  }
  const { outcome, queried, misspelt } = found;
  if (queried) {
    return {
      outcome,
      remark: {
        rule: "outcome-queried",
        severity: "warning",
        reason: "typed with a doubt or saying two things: the worse one is taken until it is settled",
        result: outcome,
        expected,
        action: "Look at the tray, then type its outcome without doubt",
      },
    };
  }
  const reason = misspelt
    ? "a misspelt word for what became of the tray"
    : "a grower's word for what became of the tray";
  return { outcome, remark: { ...base, rule: "outcome-word", severity: "change", reason, result: outcome } };
}

import { isLoss } from "../../records/tray.ts";
import { wordsOf } from "../../records/words/header-words.ts";
import { phrasesOf } from "../../records/words/languages.ts";
import { cellClass } from "../columns/cell-class.ts";
import { asksForTime } from "../columns/losses-and-notes.ts";
import { missingWord, whyMissing } from "../rules/missing-word.ts";
import { isLostWord, phraseAt } from "../values/outcome-phrases.ts";
import { outcomesExpected as expected, isOutcome, readOutcome, type TraySaid } from "../values/outcome-words.ts";
import { type CellFact, nothing } from "./cell-fact.ts";

/** What yes means under a header that asks a question. */
export type OutcomeQuestion = "contaminated" | "failed" | "discarded" | "good" | "share lost" | "trouble";

const yes = new Set(phrasesOf((words) => words.yes).concat("✓", "✔"));
const no = new Set(phrasesOf((words) => words.no));
/** What may or may not have cost the tray, in the eight languages, from memory. */
const trouble = /\b(?:sick|problem|issue|trouble|fault|defe[ck]t|defaut|fehler|mangel|fout|wad[ay]|erro)/;
/** The question a header asks: "Contaminated?", "Schimmel", "Success"; undefined when it asks none. */
export function questionOf(header: string): OutcomeQuestion | undefined {
  if (/%|\b(?:percent|pct)\b/i.test(header)) return "share lost";
  const words = wordsOf(header);
  const roles = words.map((word) => phraseAt([word], 0)?.role);
  // "Trays lost", "No. contaminated": a count, of which any but 0 leaves open what became of the others
  if (words.some((word) => word === "tray" || word === "number") && words.some((word) => isLostWord(word)))
    return "share lost";
  if (words.some((word) => /^contam/.test(word)) || roles.includes("contaminated")) return "contaminated";
  if (words.some((word) => isLostWord(word))) return "discarded";
  const lost = roles.find((role) => role === "failed" || role === "discarded");
  if (lost === "failed" || lost === "discarded") return lost;
  if (trouble.test(words.join(" "))) return "trouble";
  return words.some((word) => /^(?:success|ok|good|clean|surviv|usable|alive|health)/.test(word)) ||
    roles.includes("good")
    ? "good"
    : undefined;
}

/** What a bare number says in a column of outcomes: how many of the row's trays, or the day on which it was seen. */
export type OutcomeNumbers = "trays" | "days" | undefined;

/** What bare numbers say under a header that asks for a loss. @param ofSeveral the rows are of several trays, by their counts */
export const numbersOf = (header: string, ofSeveral = false): OutcomeNumbers =>
  asksForTime(header) ? "days" : ofSeveral ? "trays" : undefined;

const base = { result: "", expected: "", action: "" };

/** A share of the tray that was lost: none, all, or a part, which makes it neither. */
function shareLost(word: string): CellFact | undefined {
  const share = /^(\d+(?:[.,]\d+)?)\s*%?$/.exec(word)?.[1];
  if (share === undefined) return undefined;
  const lost = Number(share.replace(",", "."));
  const reason = "the share of the tray that was lost, by its header";
  if (lost === 0) return { says: "not lost", remark: { ...base, rule: "outcome-word", severity: "change", reason } };
  if (lost === 100)
    return {
      says: "contaminated",
      remark: { ...base, rule: "outcome-word", severity: "change", reason, result: "contaminated" },
    };
  return asked("lost-in-part", "a part of the tray was lost: whether it counts as good is not said");
}

/** The answer to a header's question. */
function answerTo(word: string, question: OutcomeQuestion): CellFact | undefined {
  if (question === "share lost") return shareLost(word);
  // a box to tick
  const ticked = /^\[\s*(\S?)\s*\]$/.exec(word)?.[1] ?? word;
  const short = ticked.toLowerCase().normalize("NFKD").replace(/\p{M}/gu, "");
  const isYes = yes.has(short);
  if (!isYes && !no.has(short) && ticked !== "") return undefined;
  if (isYes && question === "trouble") return asked("not-an-outcome", "a yes to what is no loss by itself");
  const says = question === "trouble" ? "not lost" : isYes ? question : question === "good" ? "failed" : "not lost";
  const reason =
    says === "not lost"
      ? "not lost to what the header asks; what else became of it, the other columns tell"
      : "the answer to the question in the header";
  return {
    says,
    remark: { ...base, rule: "outcome-word", severity: "change", reason, result: says === "not lost" ? "" : says },
  };
}

const asked = (rule: string, reason: string, action = `Type ${expected}`): CellFact => ({
  says: "asked",
  remark: {
    rule,
    severity: "warning",
    reason,
    result: "asked",
    expected,
    action,
  },
});

/** A dash in a column that has a plus too. */
export const minusFact = asked(
  "not-an-outcome",
  "a minus beside a plus is no empty cell, and what it says is not sure",
);

const queriedFact = (says: TraySaid): CellFact => ({
  says,
  queried: true,
  remark: {
    rule: "outcome-queried",
    severity: "warning",
    reason: isLoss(says)
      ? "typed with a doubt: the loss is taken where no weight speaks against it, until it is settled"
      : "typed with a doubt",
    result: says,
    expected,
    action: "Look at the tray, then type its outcome without doubt",
  },
});

// the first letter of "o.B." or "n/a" is no answer
const answerFirst = /^(\p{L}{2,}|\p{L}(?![./]\S)|✓|✔)(?:\s*[-–—,:;.!(/]+\s*|\s+)(\S.*)$/u;

/** A day under a header that asks whether a tray was lost: it was put away then, which is a loss where nothing was picked. */
const putAway: CellFact = {
  says: "spent",
  remark: {
    ...base,
    rule: "outcome-word",
    severity: "change",
    reason: "the day it was put away, by its header: lost where nothing was picked before",
    result: "spent",
  },
};

/** A day under a header that asks for contamination: seen then, whether before anything was picked or after. */
const seenThen: CellFact = {
  says: "contaminated",
  queried: true,
  remark: {
    ...base,
    rule: "outcome-word",
    severity: "change",
    reason: "the day it was seen, by its header",
    result: "contaminated",
  },
};

/** A yes or no with more behind it ("Yes - green"): a loss that is named says which, else the answer stands. */
function answerWithMore(text: string, question: OutcomeQuestion): CellFact | undefined {
  const [, first, more] = answerFirst.exec(text) ?? [];
  const answer = first === undefined ? undefined : answerTo(first, question);
  // "no fruits" is no answer but a phrase
  if (answer === undefined || (answer.says !== question && /^\p{L}+\s+\p{L}/u.test(text))) return undefined;
  const found = readOutcome(more!);
  if (found === undefined || found.says === "not lost") return answer;
  const isLost = isLoss(found.says);
  // "Contaminated? No, dried out" is lost to something else; "Good? Yes, green" says two things
  return isLost && !found.queried && !found.contradictory && answer.says !== "good"
    ? { says: found.says, remark: { ...answer.remark!, result: found.says } }
    : isLost || found.queried || found.contradictory
      ? undefined
      : answer;
}

/**
 * What a cell of a column of outcomes says. A word that is not known, or a cell that says two things, is asked about.
 * @param text not empty
 * @param question what yes means in this column
 */
export function readOutcomeCell(
  text: string,
  question: OutcomeQuestion | undefined,
  numbers?: OutcomeNumbers,
): CellFact {
  const isNumber = /^\s*[1-9]\d{0,3}\s*$/.test(text);
  if (numbers === "days" && isNumber && question !== undefined && question !== "good")
    return question === "contaminated" ? seenThen : putAway;
  if (numbers === "trays" && isNumber)
    return {
      lost: {
        trays: Number(text),
        outcome: question === "contaminated" || question === "failed" ? question : "discarded",
      },
    };
  if (text === "asked") return asked("outcome-asked", "asked about when the sheet was cleaned, and not answered yet");
  if (isOutcome(text)) return { says: text };
  const word = text.trim();
  if (question !== undefined) {
    const share = question !== "good" && /^\d[\d.,]*\s*%$/.test(word) ? shareLost(word) : undefined;
    if (share !== undefined) return share;
    const answer = answerTo(word.replace(/[!.]+$/, ""), question) ?? answerWithMore(word, question);
    if (answer !== undefined) return answer;
    const doubted = /^(.+?)\s*\?+$/.exec(word)?.[1];
    const says = doubted === undefined ? undefined : answerTo(doubted, question)?.says;
    if (says !== undefined && says !== "not lost" && says !== "asked") return queriedFact(says);
    if (!["good", "share lost", "trouble"].includes(question) && cellClass(word) === "date")
      return question === "contaminated" ? seenThen : putAway;
  }
  const how = missingWord(text);
  if (how === "blank") return nothing;
  if (how === "unknown" && readOutcome(word)?.says !== "pending")
    return asked("outcome-unknown", "said not to be known, so the tray counts neither as good nor as lost");
  if (how !== undefined)
    return { remark: { ...base, rule: "missing-word", severity: "change", reason: whyMissing(how) } };
  const found = readOutcome(word);
  if (found === undefined || found.perhaps) {
    return asked(
      "not-an-outcome",
      "no known word in it says what became of the tray, so the tray counts neither as good nor as lost",
    );
  }
  const { says, queried, contradictory, misspelt } = found;
  if (contradictory) {
    return asked("outcome-two-ways", "says that the tray was good and that it was lost, so neither is taken");
  }
  if (queried) return queriedFact(says);
  const reason = misspelt
    ? "a misspelt word for what became of the tray"
    : "a grower's word for what became of the tray";
  return { says, remark: { ...base, rule: "outcome-word", severity: "change", reason, result: says } };
}

import { isLoss } from "../../records/tray.ts";
import { fold } from "../../records/words/fold.ts";
import { wordsOf } from "../../records/words/header-words.ts";
import { cellClass } from "../columns/cell-class.ts";
import { asksForTime, deniedLoss } from "../columns/losses-and-notes.ts";
import { missingWord, whyMissing } from "../rules/missing-word.ts";
import { isLostWord, phraseAt } from "../values/outcome-phrases.ts";
import { outcomesExpected as expected, isOutcome, readOutcome, type TraySaid } from "../values/outcome-words.ts";
import { answerWithMore, yesOrNo } from "../values/yes-or-no.ts";
import { type CellFact, nothing } from "./cell-fact.ts";

/** What yes means under a header that asks a question. */
export type OutcomeQuestion = Loss | `not ${Loss}` | "good" | "share lost" | "share good" | "trouble";
type Loss = "contaminated" | "failed" | "discarded";
/** Whether it is asked for what is well, so that no is the loss. */
const asksForGood = (question: OutcomeQuestion): boolean => /^(?:not |good|share good)/.test(question);

/** What may or may not have cost the tray, in the eight languages, from memory. */
const trouble = /\b(?:sick|problem|issue|trouble|fault|defe[ck]t|defaut|fehler|mangel|fout|wad[ay]|erro)/;
/** The question a header asks: "Contaminated?", "Schimmel", "Success"; undefined when it asks none. */
export function questionOf(header: string): OutcomeQuestion | undefined {
  const denied = deniedLoss(header.replace("%", ""));
  const asks =
    denied === undefined ? questionInWords(wordsOf(header), fold(header)) : (`not ${denied as Loss}` as const);
  if (!/%|\b(?:percent|pct)\b/i.test(header)) return asks;
  return asks !== undefined && asksForGood(asks) ? "share good" : "share lost";
}

function questionInWords(words: ReadonlyArray<string>, phrase: string): OutcomeQuestion | undefined {
  const typed = phrase.split(" ");
  const roles = [...words.map((word) => phraseAt([word], 0)), ...typed.map((_, at) => phraseAt(typed, at))].map(
    (found) => found?.role,
  );
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
export type OutcomeNumbers = "trays" | "days" | "unclear" | undefined;

/** What bare numbers say under a header that asks for a loss. @param ofSeveral the rows are of several trays, by their counts */
export const numbersOf = (header: string, ofSeveral = false): OutcomeNumbers =>
  deniedLoss(header) !== undefined && (ofSeveral || /^no\s/i.test(header))
    ? "unclear"
    : asksForTime(header)
      ? "days"
      : ofSeveral
        ? "trays"
        : undefined;

const base = { result: "", expected: "", action: "" };

/** A share of the tray that was lost, or was well: none, all, or a part, which makes it neither. */
function shareLost(word: string, ofGood = false): CellFact | undefined {
  const share = /^(\d+(?:[.,]\d+)?)\s*%?$/.exec(word)?.[1];
  if (share === undefined) return undefined;
  const stated = Number(share.replace(",", "."));
  const lost = ofGood ? 100 - stated : stated;
  const reason = `the share of the tray that was ${ofGood ? "well" : "lost"}, by its header`;
  if (lost === 0) return { says: "not lost", remark: { ...base, rule: "outcome-word", severity: "change", reason } };
  const says = ofGood ? "failed" : "contaminated";
  if (lost === 100)
    return { says, remark: { ...base, rule: "outcome-word", severity: "change", reason, result: says } };
  return asked("lost-in-part", "a part of the tray was lost: whether it counts as good is not said");
}

/** The answer to a header's question. */
function answerTo(word: string, question: OutcomeQuestion): CellFact | undefined {
  // "Is this tray lost?" yes
  if (question === "share lost" || question === "share good")
    return (
      shareLost(word, question === "share good") ?? answerTo(word, question === "share good" ? "good" : "discarded")
    );
  const isYes = yesOrNo(word);
  if (isYes === undefined) return undefined;
  if (isYes && question === "trouble") return asked("not-an-outcome", "a yes to what is no loss by itself");
  const ofGood = question === "good" ? "failed" : (/^not (.+)$/.exec(question)?.[1] as Loss | undefined);
  const isFine = question === "trouble" || isYes === (ofGood !== undefined);
  const says = !isFine ? (ofGood ?? (question as Loss)) : question === "good" ? "good" : "not lost";
  const reason =
    says === "not lost"
      ? "not lost to what the header asks; what else became of it, the other columns tell"
      : "the answer to the question in the header";
  return {
    says,
    remark: { ...base, rule: "outcome-word", severity: "change", reason, result: says === "not lost" ? "" : says },
  };
}

const asked = (rule: string, reason: string): CellFact => ({
  says: "asked",
  remark: {
    rule,
    severity: "warning",
    reason,
    result: "asked",
    expected,
    action: `Type ${expected}`,
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
function answerAndMore(text: string, question: OutcomeQuestion): CellFact | undefined {
  const split = answerWithMore(text);
  const answer = split === undefined ? undefined : answerTo(split.first, question);
  // "no fruits" is no answer but a phrase
  if (answer === undefined || (answer.says !== question && /^\p{L}+\s+\p{L}/u.test(text))) return undefined;
  const found = readOutcome(split!.more);
  if (found === undefined || found.says === "not lost") return answer;
  const isLost = isLoss(found.says);
  // "Contaminated? No, dried out" is lost to something else; "Good? Yes, green" says two things
  const isWell = answer.says === "good" || (answer.says === "not lost" && asksForGood(question));
  return isLost && !found.queried && !found.contradictory && !isWell
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
  if (numbers === "unclear" && /^\s*\d+\s*$/.test(text))
    return asked(
      "not-an-outcome",
      "a number where a loss is denied: how many were lost, or how many were not, is not said",
    );
  if (numbers === "days" && isNumber && question !== undefined && !asksForGood(question))
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
    const share = /^\d[\d.,]*\s*%$/.test(word) ? shareLost(word, asksForGood(question)) : undefined;
    if (share !== undefined) return share;
    const answer = answerTo(word.replace(/[!.]+$/, ""), question) ?? answerAndMore(word, question);
    if (answer !== undefined) return answer;
    const doubted = /^(.+?)\s*\?+$/.exec(word)?.[1];
    const says = doubted === undefined ? undefined : answerTo(doubted, question)?.says;
    if (says !== undefined && says !== "not lost" && says !== "asked") return queriedFact(says);
    if (!asksForGood(question) && !["share lost", "trouble"].includes(question) && cellClass(word) === "date")
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

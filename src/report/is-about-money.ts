import type { AnsweredQuestion } from "../analysis.ts";

const moneyWords = /\b(costs?|prices?|pays?|earns?|sells?|profits?|money|margins?|worth)\b/i;

/** Whether a question belongs under costs: its figures are money, or where it has none its words are. */
export function isAboutMoney({ question, outcome }: AnsweredQuestion): boolean {
  const units = outcome.estimates.map(({ unit }) => unit);
  return units.some((unit) => /^money\b/.test(unit)) || moneyWords.test(question);
}

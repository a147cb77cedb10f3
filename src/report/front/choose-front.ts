import type { AnsweredQuestion, Missing, NextRank, NextStep } from "../../analysis.ts";

/** rows of the front */
const mostRows = 8;
/** things to do that the front lists */
const mostNext = 4;

const ranks: ReadonlyArray<NextRank> = ["losing", "alarm", "unread", "doubtful", "due", "dose", "record", "trial"];

/** Whether an outcome has what a front row needs; of those that cannot tell only one that was seen all the same, the yield. */
const canStandInFront = ({ outcome }: AnsweredQuestion): boolean =>
  outcome.short !== undefined && outcome.figure !== undefined;

/** Whether an answer is an amount of money, or has something to do that does not wait for the next trial. */
const changesSomething = ({ outcome }: AnsweredQuestion): boolean =>
  (outcome.figure !== undefined && "unit" in outcome.figure && outcome.figure.unit.startsWith("money")) ||
  (outcome.next ?? []).some(({ rank }) => rank === "losing" || rank === "alarm" || rank === "due" || rank === "dose");

/**
 * The answers that stand on the front page: the headline questions this book can answer, filled up with others to eight;
 * those with money or a change to act on come first. What a headline says with the same figure is not said twice.
 * @param answers in the report's order
 */
export function frontAnswers(answers: ReadonlyArray<AnsweredQuestion>): AnsweredQuestion[] {
  const able = answers.filter(canStandInFront);
  const headlines = able.filter(({ headline }) => headline);
  const figureOf = ({ outcome }: AnsweredQuestion): string => JSON.stringify(outcome.figure);
  const said = new Set(headlines.map(figureOf));
  const others = able.filter((one) => !one.headline && one.outcome.strip !== undefined && !said.has(figureOf(one)));
  const filled = [...others.filter(changesSomething), ...others.filter((answer) => !changesSomething(answer))];
  const chosen = new Set([...headlines, ...filled].slice(0, mostRows));
  const inOrder = answers.filter((answer) => chosen.has(answer));
  return [...inOrder.filter(changesSomething), ...inOrder.filter((answer) => !changesSomething(answer))];
}

/** A thing to do, and the question that says so. */
export interface NextThing extends NextStep {
  question: string;
}

/** What to do next: at most four, one of each kind, the most urgent first. */
export function nextThings(answers: ReadonlyArray<AnsweredQuestion>): NextThing[] {
  const every = answers.flatMap(({ id, outcome }) =>
    (outcome.next ?? []).map((step): NextThing => ({ ...step, question: id })),
  );
  const record = recordToOpenMost(answers);
  if (record !== undefined) every.unshift(record);
  return ranks
    .map((rank) => every.find((step) => step.rank === rank))
    .filter((step) => step !== undefined)
    .slice(0, mostNext);
}

/** Questions that wait for one thing. */
export interface WaitingGroup {
  kind: Missing["kind"] | "other";
  /** what to add, each said once */
  needs: string[];
  answers: AnsweredQuestion[];
}

const kinds: ReadonlyArray<WaitingGroup["kind"]> = ["trays", "costs", "products", "record", "vary", "layout", "other"];

/** What cannot be answered, grouped by what is missing. */
export function waitingGroups(answers: ReadonlyArray<AnsweredQuestion>): WaitingGroup[] {
  const groups = new Map<WaitingGroup["kind"], WaitingGroup>();
  for (const answer of answers) {
    if (answer.outcome.kind !== "cannot-tell") continue;
    const { missing } = answer.outcome;
    const kind = missing?.kind ?? "other";
    const group = groups.get(kind) ?? { kind, needs: [], answers: [] };
    groups.set(kind, group);
    group.answers.push(answer);
    if (missing !== undefined && !group.needs.includes(missing.need)) group.needs.push(missing.need);
  }
  return kinds.map((kind) => groups.get(kind)).filter((group) => group !== undefined);
}

/** The sheet or record that would open most questions, where several wait for it. */
function recordToOpenMost(answers: ReadonlyArray<AnsweredQuestion>): NextThing | undefined {
  const [group] = waitingGroups(answers)
    .filter(({ kind }) => kind === "costs" || kind === "products")
    .sort((a, b) => b.answers.length - a.answers.length);
  // lines that wait to be corrected are there already
  if (group === undefined || group.answers.some(({ outcome }) => (outcome.next ?? []).length > 0)) return undefined;
  const count = group.answers.length;
  return {
    rank: "record",
    act: [group.kind === "costs" ? "Write five lines into costs.csv." : "Write what you sell into products.csv."],
    because: [`It opens ${count === 1 ? "an answer" : `${count} answers`} about money.`],
    question: "",
    see: "waiting",
  };
}

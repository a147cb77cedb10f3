import { type BookDose, bookDoseDecision } from "../../analyses/treatment/book-dose-decision.ts";
import { yieldDecision } from "../../analyses/treatment/what-changed-the-yield.ts";
import type { Answer, AnsweredQuestion, Outcome, Sentence, Trial } from "../../src/analysis.ts";
import { sentenceText } from "../../src/report/format-quantity.ts";

const outcomeIn = (answers: ReadonlyArray<AnsweredQuestion>, id: string): Outcome | undefined =>
  answers.find((one) => one.id === id)?.outcome;
const answerIn = (answers: ReadonlyArray<AnsweredQuestion>, id: string): Answer | undefined => {
  const outcome = outcomeIn(answers, id);
  return outcome?.kind === "answer" ? outcome : undefined;
};

const verdictStarts = { settled: /^(?!Leaning|Not known)/, leaning: /^Leaning to/, open: /^Not known yet/ } as const;

/**
 * What a report's answers say against one another: the yield's verdict, the dose to use, the next step, more trays, days,
 * other things that varied, and what to do next.
 * @returns one line for each; none where they speak with one voice
 */
export function contradictionsOf(trial: Trial, given: ReadonlyArray<AnsweredQuestion>): string[] {
  const found: string[] = [];
  // a row to correct or a day to record is no advice about a dose
  const answers = given.map((one): AnsweredQuestion => {
    const next = (one.outcome.next ?? []).filter(({ rank }) => rank !== "doubtful" && rank !== "unread");
    return { ...one, outcome: { ...one.outcome, next } };
  });
  const say = (holds: boolean, what: string): void => {
    if (!holds) found.push(what);
  };
  const text = (sentence: Sentence | undefined): string =>
    sentenceText(sentence ?? [], trial.settings).replaceAll("\u00a0", " ");
  const all = (outcome: Outcome | undefined): string =>
    outcome === undefined
      ? ""
      : [outcome.kind === "answer" ? outcome.sentence : outcome.reason, ...outcome.caveats].map(text).join(" ");
  const gain = answerIn(answers, "what-changed-the-yield");
  const dose = answerIn(answers, "which-dose-earns-most");
  const more = answerIn(answers, "how-many-more-trays");
  const step = answerIn(answers, "is-the-next-step-worth-trying");
  const other = answerIn(answers, "what-else-was-varied");
  const decided = bookDoseDecision(trial);
  const of = yieldDecision(trial);

  for (const { id, outcome } of answers) {
    say(outcome.kind === "answer" || outcome.failure === undefined, `${id}: failed`);
    say(!/NaN|undefined|Infinity|\[object/.test(all(outcome)), `${id}: ${all(outcome)}`);
    say(!/(?<![\d.,])0 (days?|g) (more|less)/.test(all(outcome)), `${id}: a difference of nought: ${all(outcome)}`);
  }
  for (const id of ["what-changed-the-yield", "what-changed-the-days"]) {
    const answer = answerIn(answers, id);
    if (answer === undefined) continue;
    const word = answer.certainty as keyof typeof verdictStarts;
    say(verdictStarts[word].test(text(answer.sentence)), `${id}, ${word}: ${text(answer.sentence)}`);
    const pairs = answer.tables.find(({ caption }) => caption.startsWith("Pairs"));
    say(word === "settled" || pairs === undefined || !/settled/.test(JSON.stringify(pairs)), `${id}, ${word}: pairs`);
    const [estimate] = answer.estimates;
    // where a level inside gave most, the large number is that level and has no range
    if (answer.figure !== undefined && "from" in answer.figure && estimate !== undefined) {
      const { value, from, to } = answer.figure;
      say(Math.abs(Math.abs(value) - Math.abs(estimate.value)) < 1e-9, `${id}: two differences`);
      const width = (low: number | undefined, high: number | undefined) => (high ?? 0) - (low ?? 0);
      say(Math.abs(width(from, to) - width(estimate.low, estimate.high)) < 1e-9, `${id}, ${word}: two ranges`);
    }
  }
  const settled = gain?.certainty === "settled";
  if (more !== undefined) {
    say(
      /Already decided/.test(text(more.sentence)) === settled,
      `yield ${gain?.certainty}, more trays: ${text(more.sentence)}`,
    );
    const pays = !/do not pay/.test(text(more.sentence));
    say(
      pays || (more.next ?? []).length === 0,
      `more trays do not pay, but: ${(more.next ?? []).map(({ act }) => text(act))}`,
    );
    const could = /could have shown/.test(text(more.sentence));
    say(
      !could || !/would (not )?show/.test(text(more.short)),
      `more trays: ${text(more.sentence)} | ${text(more.short)}`,
    );
    const trials = (gain?.next ?? []).filter(({ rank }) => rank === "trial");
    say(
      pays || trials.length === 0,
      `more trays do not pay, but the yield says: ${trials.map(({ act }) => text(act))}`,
    );
  }
  if (decided.kind === "dose" && dose !== undefined) contradictionsOfDose(decided);
  if (other !== undefined) {
    say(
      !/"settled"/.test(JSON.stringify(other.tables[0]!.rows)),
      "what else varied: settled beside a note that none is",
    );
  }
  contradictionsOfAdvice();
  const days = answerIn(answers, "what-changed-the-days");
  say(
    days === undefined || !/quicker/i.test(text(days.short)) || /less|fewer/.test(text(days.sentence)),
    `days: ${text(days?.short)} ${text(days?.sentence)}`,
  );
  const agree = answerIn(answers, "do-trials-agree");
  const together = agree?.estimates[0];
  if (together?.low !== undefined && gain !== undefined && gain.certainty === "open") {
    say(
      !(together.low > 0 || together.high! < 0),
      `yield open, trials: ${text(agree!.sentence)} | ${text(gain.sentence)}`,
    );
  }
  const advised = answers.flatMap(({ id, outcome }) => (outcome.next ?? []).map((one) => ({ id, ...one })));
  const doses = new Set(
    advised.filter(({ rank }) => rank === "dose").map(({ act }) => text(act).replace(/^.*[Uu]se /, "")),
  );
  say(doses.size <= 1 || decided.kind !== "dose", `two things to use: ${[...doses].join(" / ")}`);

  /** What answers advise beside what others say: nothing where nothing is known, no dose tried already, one list of losses. */
  function contradictionsOfAdvice(): void {
    const acts = answers.flatMap(({ id, outcome }) => (outcome.next ?? []).map(({ act }) => ({ id, act: text(act) })));
    if (decided.kind === "dose") {
      const tried = new Set(decided.decision.doses.map(String));
      for (const { id, act } of acts) {
        const dose = /[Tt]ry (\S+) \S+ beside/.exec(act)?.[1];
        say(dose === undefined || !tried.has(dose), `${id}: tries ${dose}, which was tried: ${act}`);
      }
    }
    say(
      acts.filter(({ act }) => /[Tt]ry /.test(act)).length <= 1,
      `two things to try: ${acts.map(({ act }) => act).join(" / ")}`,
    );
    const named = outcomeIn(answers, "which-dose-earns-most");
    if (named?.kind === "cannot-tell") {
      const said = acts.filter(({ id }) => id === "which-dose-earns-most" || id === "is-the-next-step-worth-trying");
      say(said.length === 0, `no dose can be told, but: ${said.map(({ act }) => act).join(" / ")}`);
    }
    for (const { id, outcome } of answers) {
      if (outcome.kind !== "answer" || outcome.figure === undefined || !("value" in outcome.figure)) continue;
      const { value, from, to } = outcome.figure;
      if (from !== undefined && to !== undefined)
        say(from <= value && value <= to, `${id}: ${value} outside ${from} to ${to}`);
      if (outcome.strip !== undefined && "use" in outcome.strip && outcome.figure.label.includes("use")) {
        say(outcome.strip.use === value, `${id}: strip ${outcome.strip.use}, figure ${value}`);
      }
      say(
        !/^Leaning|^Not known/.test(text(outcome.sentence)) || outcome.certainty !== "settled",
        `${id}: settled in leaning words`,
      );
      say(
        !/^(Already|More from)/.test(text(outcome.short)) || outcome.certainty !== "open",
        `${id}, open: ${text(outcome.short)}`,
      );
    }
    const losses = answerIn(answers, "is-contamination-a-signal");
    const says = all(gain);
    say(
      !/no more than scatter/.test(text(losses?.sentence)) || !/Losses go with/.test(says),
      "losses: scatter, but they go with the level",
    );
    const steady = text(answerIn(answers, "is-the-process-steady")?.sentence);
    say(
      !/looks steady/.test(steady) ||
        !(of?.thing.isPeriod === true && gain?.certainty !== "open" && gain !== undefined),
      `steady, but seasons differ: ${steady}`,
    );
  }

  function contradictionsOfDose({ decision, thing, verdict }: BookDose): void {
    const { use, certainty, doses: tried } = decision;
    const said = `${text(dose!.sentence)} ${dose!.caveats.map(text).join(" ")}`;
    say(certainty !== "open" || tried.includes(use.dose), `open, but use ${use.dose}: ${text(dose!.sentence)}`);
    const acts = (dose!.next ?? []).map(({ act }) => text(act));
    say(certainty === "settled" || acts.every((one) => one.startsWith("Meanwhile")), `dose ${certainty}: ${acts}`);
    if (thing.factor.key !== of?.thing.factor.key) return;
    const shown = {
      settled: !/changes the yield is/.test(said),
      leaning: /changes the yield is likely/.test(said),
      open: /changes the yield is not shown/.test(said),
    }[gain?.certainty as "settled" | "leaning" | "open"];
    if (decision.priced) say(shown !== false, `yield ${gain?.certainty}, dose: ${said}`);
    const difference = verdict.difference;
    if (difference === undefined || !(gain?.certainty === "settled" || gain?.certainty === "leaning")) return;
    const [better, worse] =
      difference.estimate > 0 ? [difference.to, difference.from] : [difference.from, difference.to];
    const nearerWorse = Math.abs(use.dose - Number(worse)) < Math.abs(use.dose - Number(better));
    say(
      !nearerWorse || /gave more a good tray|would do as well|hardly matters/.test(said),
      `yield ${gain.certainty} to ${better}, use ${use.dose} without a word why: ${said}`,
    );
    const next = (step?.next ?? []).map(({ act }) => text(act));
    say(!next.some((one) => one.includes(`Try ${use.dose} `)), `next step tries the dose to use: ${next}`);
  }
  return found;
}

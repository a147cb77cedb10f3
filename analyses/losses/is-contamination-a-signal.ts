import type { Analysis, Answer, AnswerFront, Excluded, Outcome, Trial } from "../../src/analysis.ts";
import { startedCount } from "../../src/design/arm.ts";
import { counted } from "../../src/records/counted.ts";
import { countedEnds, lostAhead } from "../../src/records/ended-cooks.ts";
import { hasEnded, isLost, type Tray } from "../../src/records/tray.ts";
import { capital } from "../comparison/level-text.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { alarmCaveats, alarmSteps, alarmWords, watchedName } from "./alarm-words.ts";
import { cookLossChart } from "./cook-loss-chart.ts";
import { type LossAlarm, lossAlarm } from "./loss-alarm.ts";
import { alarmMethod, lossAnswer, lossTies } from "./loss-answer.ts";
import { type LossShare, lossShare, shareCaveats, shareRange } from "./loss-share.ts";
import { lossesFront } from "./losses-front.ts";

/** With fewer lost, or fewer kept, no pattern can be distinguished from chance. */
const fewestOfEither = 3;
const fewestTrays = 10;

function excludedOf(trays: ReadonlyArray<Tray>): Excluded[] {
  const names = (wanted: (tray: Tray) => boolean) => trays.filter(wanted).map(({ trayId }) => trayId);
  const counted = new Set(countedEnds(trays));
  return [
    { trays: names((tray) => !hasEnded(tray)), reason: "still growing, so how they end is not known" },
    {
      trays: names((tray) => hasEnded(tray) && !counted.has(tray)),
      reason: "its cook grows for the most part, and losses come before pickings",
    },
    {
      trays: names((tray) => counted.has(tray) && tray.traysInPool > 1),
      reason: "recorded together with others: counted in the share lost, left out of the search for where losses sit",
    },
  ].filter(({ trays: some }) => some.length > 0);
}

/** What any answer shows, whether or not the losses are tied to something. */
function besideOf(
  trial: Trial,
  share: LossShare,
  alarm: LossAlarm | undefined,
): Pick<Answer, "estimates" | "charts" | "excluded" | "caveats"> {
  // a line at 0 or at all of them shows nothing that the sentence does not say
  const chart = share.lost === 0 || share.lost === share.total ? undefined : cookLossChart(alarm);
  return {
    estimates: [share.share],
    charts: chart === undefined ? [] : [chart],
    excluded: excludedOf(trial.trays),
    caveats: [...shareCaveats(trial, share), ...alarmCaveats(alarm, trial.trays)],
  };
}

/** What the front shows of the share lost, whatever it is tied to. */
const frontOf = ({ finished, lostAhead: ahead, share }: LossShare): AnswerFront =>
  lossesFront(finished, ahead, share, {});

/** The share lost, where nothing can be said of what it is tied to. */
function shareAlone(
  share: LossShare,
  beside: ReturnType<typeof besideOf>,
  said: Pick<Answer, "sentence" | "short">,
): Answer {
  return {
    ...beside,
    kind: "answer",
    ...frontOf(share),
    ...said,
    certainty: "open",
    tables: [],
    method: [],
  };
}

function noneLost(share: LossShare, alarm: LossAlarm | undefined, beside: ReturnType<typeof besideOf>): Answer {
  const {
    total,
    lostAhead: ahead,
    share: { high },
  } = share;
  const whole = `None of ${total} finished ${total === 1 ? "tray" : "trays"} was lost${ahead === 0 ? ", so there is nothing to look for" : `, and ${ahead} so far in cooks that still grow`}`;
  const latest = alarmWords(alarm);
  return shareAlone(share, beside, {
    sentence: [
      `${whole}; the true share could still be up to `,
      { value: high, unit: "share" },
      latest === undefined ? "." : `. ${capital(latest)}.`,
    ],
  });
}

/** Every finished tray was lost: nothing to compare with, and one thing to do. */
function allLost(share: LossShare, beside: ReturnType<typeof besideOf>): Answer {
  const { total } = share;
  return {
    ...beside,
    kind: "answer",
    ...frontOf(share),
    short: ["Every finished tray was lost, so none is left to compare with."],
    sentence: [`All ${total} finished trays were lost, so no good tray is left to tell a cause by.`],
    certainty: "measured",
    next: [
      {
        rank: "alarm",
        act: ["Find out why before the next cook."],
        because: ["First the cook, the culture and the inoculation (common practice)."],
      },
    ],
    tables: [],
    method: [["Common practice, no source: what all trays share is looked at first."]],
  };
}

/** The latest cooks lose more than usual, though too little is lost in all to look for what losses are tied to. */
function onlyAlarm(share: LossShare, alarm: LossAlarm, beside: ReturnType<typeof besideOf>): Answer {
  return {
    ...beside,
    kind: "answer",
    sentence: [...shareRange(share), `. ${capital(alarmWords(alarm)!)}.`],
    certainty: "leaning",
    short: [`More is lost than usual: ${watchedName(alarm.worst!)}.`],
    figure: frontOf(share).figure!,
    next: alarmSteps(alarm),
    tables: [],
    method: [alarmMethod],
  };
}

function run(trial: Trial): Outcome {
  const share = lossShare(trial);
  if (share === undefined) {
    const ahead = startedCount([...lostAhead(trial.trays)]);
    return noAnswer(
      [
        `Cannot tell whether losses are more than chance: ${ahead === 0 ? "no tray is harvested or lost yet" : `${counted(ahead, "tray is", "trays are")} lost so far, and the rest of ${ahead === 1 ? "its cook" : "their cooks"} still grows`}.`,
      ],
      ["Write down how each tray ends: good, contaminated, failed or discarded."],
      { excluded: excludedOf(trial.trays) },
    );
  }
  const { finished, lost, total } = share;
  const alarm = lossAlarm(trial.trays, trial.settings);
  const beside = besideOf(trial, share, alarm);
  if (lost === 0 && alarm?.heard !== true) return noneLost(share, alarm, beside);
  if (lost === total && total >= fewestTrays) return allLost(share, beside);
  const alone = (why: string, short: string): Outcome =>
    alarm?.heard === true
      ? onlyAlarm(share, alarm, beside)
      : shareAlone(share, beside, { sentence: [...shareRange(share), why], short: [short] });
  const units = finished.filter(({ traysInPool }) => traysInPool === 1);
  const lostUnits = units.filter(isLost).length;
  if (units.length < fewestTrays || Math.min(lostUnits, units.length - lostUnits) < fewestOfEither) {
    return alone(
      `; to look for a cause, ${fewestTrays} trays written down one by one are needed, ${fewestOfEither} of them lost and ${fewestOfEither} not.`,
      "Too few to look for a cause.",
    );
  }
  const ties = lossTies(trial, share, units);
  if (ties !== undefined) return lossAnswer(trial, share, { ties, alarm }, beside);
  return alone(
    "; nothing is written down that several trays share (jar, load, cook, place, shelf, operator, day), so no cause can be looked for.",
    "Nothing is written down to look for a cause by.",
  );
}

/** Whether losses are a signal or scatter, and what they are tied to. */
export const isContaminationASignal: Analysis = {
  id: "is-contamination-a-signal",
  name: "Losses",
  question: "Are losses more than chance, and what are they tied to?",
  needs: ["tray_id", "outcome"],
  assumes: ["every lost tray is written down", "without a cause in common, one tray's loss says nothing of the next"],
  topic: "growing",
  headline: true,
  run,
};

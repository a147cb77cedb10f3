import type { NextStep, Sentence } from "../../src/analysis.ts";
import type { Tray } from "../../src/records/tray.ts";
import type { LossAlarm, WatchedGroup } from "./loss-alarm.ts";

/** What a steady grower sees this often a year or less is worth a look, though no alarm. Common practice, no source. */
const suspicious = 4;

const named: Readonly<Record<string, (level: string) => string>> = {
  jar: (level) => `jar ${level}`,
  load: (level) => `load ${level}`,
  inoculated_on: (level) => `the cook of ${level}`,
  load_position: (level) => `place ${level} in the load`,
  shelf: (level) => `shelf ${level}`,
  chamber: (level) => `chamber ${level}`,
  operator: (level) => `inoculation by ${level}`,
  culture_age_days: (level) => `cultures ${level} old`,
  culture_generation: (level) => `cultures of transfer ${level}`,
};

/** "cook C8", "jar J7", "place 3 in the load" */
export function watchedName({ keys, level, cook }: WatchedGroup): string {
  if (keys.includes("batch")) return `cook ${cook}`;
  const key = keys[0];
  return key === undefined
    ? level.replace("the last", "the latest").replace("together", "cooks together")
    : named[key]!(level);
}

/** What to look at first, in at most ten words. Common practice, no source. */
function lookFirst(group: WatchedGroup): string {
  const name = watchedName(group);
  const [key] = group.keys;
  if (key === "load" && !group.keys.includes("batch")) return `Look at ${name} first: its cooking and its inoculation.`;
  if (group.keys.includes("batch") || key === "inoculated_on") {
    return `Look at ${name} first: its load and its inoculation.`;
  }
  if (key === undefined) return "Look for what changed over the latest cooks.";
  if (key === "jar") return `Set ${name} aside until it has been checked.`;
  if (key === "operator") return `Go through ${name} step by step.`;
  if (key === "culture_age_days" || key === "culture_generation") return `Set ${name} aside for now.`;
  return `Look at ${name} first.`;
}

/** How often a steady grower sees as much: "about once in 3 years". */
export function oftenWords(timesAYear: number): string {
  if (timesAYear > 1.5) return `about ${Math.round(timesAYear)} times a year`;
  const years = Math.round(1 / timesAYear);
  return years > 10 ? "less than once in ten years" : years < 2 ? "about once a year" : `about once in ${years} years`;
}

const lostWords = ({ lost, trays, expected }: WatchedGroup): string =>
  `${lost.length} of ${trays} trays lost, usually ${expected < 0.95 ? expected.toFixed(1) : Math.round(expected)}`;

/** Whether there is anything in the latest cooks to name: an alarm, or the most suspicious group. */
const isNamed = (alarm: LossAlarm | undefined): alarm is LossAlarm & { worst: WatchedGroup } =>
  alarm?.worst !== undefined && alarm.worst.timesAYear <= suspicious;

/**
 * What the latest cooks say, as part of a sentence; undefined where nothing stands out.
 * such as "cook C8 is worse than usual (4 of 6 trays lost, usually 0.5), which a steady grower sees about once in 3 years"
 */
export function alarmWords(alarm: LossAlarm | undefined): string | undefined {
  if (!isNamed(alarm)) return undefined;
  const { worst, heard } = alarm;
  const seen = `which a steady grower sees ${oftenWords(worst.timesAYear)}`;
  const verb = worst.keys.length === 0 || worst.keys[0]?.startsWith("culture_") ? "are" : "is";
  return heard
    ? `${watchedName(worst)} ${verb} worse than usual (${lostWords(worst)}), ${seen}`
    : `of the latest cooks ${watchedName(worst)} ${verb} the most suspicious (${lostWords(worst)}), ${seen}`;
}

/** What the latest cooks say and what to look at, for a list; nothing where nothing stands out. */
export function alarmNotes(alarm: LossAlarm | undefined): string[] {
  const words = alarmWords(alarm);
  return words === undefined ? [] : [[`Losses: ${words}.`, ...alarmSteps(alarm).flatMap(({ act }) => act)].join(" ")];
}

/** What to do at an alarm. */
export function alarmSteps(alarm: LossAlarm | undefined): NextStep[] {
  if (alarm?.worst === undefined || !alarm.heard) return [];
  return [{ rank: "alarm", act: [lookFirst(alarm.worst)], because: [`${lostWords(alarm.worst)}.`] }];
}

const hadColonised = ({ colonisedOn, daysToColonise, fruitingOn }: Tray): boolean =>
  colonisedOn !== undefined || daysToColonise !== undefined || fruitingOn !== undefined;

/** At which stage the trays of an alarm were lost, and what always changed together with what is named. */
export function alarmCaveats(alarm: LossAlarm | undefined, trays: ReadonlyArray<Tray>): Sentence[] {
  if (!isNamed(alarm)) return [];
  const { worst } = alarm;
  const early = worst.lost.filter((tray) => !hadColonised(tray)).length;
  const notes = trays.some(hadColonised);
  return [
    ...(worst.keys.length > 1
      ? [[`${sentenceCase(worst.name)} sort these trays alike: which of them it is cannot be said.`]]
      : []),
    ...(notes
      ? [
          [
            `Of the ${worst.lost.length} lost trays of ${watchedName(worst)} ${early} had not colonised yet: ${early * 2 > worst.lost.length ? "cooking, culture and inoculation come first" : "the fruiting room comes first"} (common practice, no source).`,
          ],
        ]
      : []),
  ];
}

const sentenceCase = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

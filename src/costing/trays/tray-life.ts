import { dayNumber } from "../../measures/day-number.ts";
import type { Stage } from "../../records/cost-line.ts";
import { hasEnded, isLost, type Tray } from "../../records/tray.ts";
import { stageOrder } from "../lines/line-stage.ts";

/** Turning points of a tray's life, as day numbers; of a tray without dates, as days since inoculation. */
export interface TrayLife {
  start?: number | undefined;
  colonised?: number | undefined;
  fruiting?: number | undefined;
  /** last picking of a good tray, or the day a lost one was taken away; of a growing tray, the day the book is looked at */
  end?: number | undefined;
  dried?: number | undefined;
  /** the end, or the move to fruiting, was not recorded and is what other trays took */
  isTypical: boolean;
  /** the furthest stage whose costs were spent on it */
  reached: Stage;
}

const dayOf = (isoDate: string | undefined): number | undefined =>
  isoDate === undefined ? undefined : dayNumber(isoDate);

/** The last day anything was picked, as recorded. */
function lastPicking(tray: Tray): number | undefined {
  let last = dayOf(tray.harvestedOn);
  for (const { harvestedOn } of tray.flushes ?? []) {
    const day = dayOf(harvestedOn);
    if (day !== undefined && (last === undefined || day > last)) last = day;
  }
  return last;
}

/** A date that lies before the one it must follow is not used. */
const notBefore = (day: number | undefined, earliest: number | undefined): number | undefined =>
  day !== undefined && earliest !== undefined && day < earliest ? undefined : day;

function recordedLife(tray: Tray): Omit<TrayLife, "reached" | "isTypical"> {
  const picked = lastPicking(tray);
  let start = dayOf(tray.inoculatedOn);
  if (start === undefined && tray.daysToHarvest !== undefined)
    start = picked === undefined ? 0 : picked - tray.daysToHarvest;
  const after = (days: number | undefined): number | undefined =>
    start === undefined || days === undefined ? undefined : start + days;
  const fruiting = notBefore(dayOf(tray.fruitingOn), start);
  return {
    start,
    fruiting,
    colonised: notBefore(dayOf(tray.colonisedOn), start) ?? after(tray.daysToColonise),
    end: notBefore(picked, fruiting ?? start) ?? after(tray.daysToHarvest),
    dried: dayOf(tray.driedOn),
  };
}

const mean = (values: ReadonlyArray<number>): number | undefined =>
  values.length === 0 ? undefined : values.reduce((sum, value) => sum + value, 0) / values.length;

const isDried = (tray: Tray): boolean => (tray.dryGrams ?? 0) > 0 || tray.driedOn !== undefined;

function reachedStage(
  tray: Tray,
  life: Pick<TrayLife, "fruiting" | "colonised" | "end">,
  bookHasFruitingDates: boolean,
): Stage {
  if (tray.outcome === "good") return isDried(tray) ? "drying" : "harvest";
  if ((tray.dryGrams ?? 0) > 0) return "drying";
  if ((tray.freshGrams ?? 0) > 0) return "harvest";
  // where the book keeps no fruiting dates, a tray is moved once it is colonised
  const moved = life.fruiting ?? (bookHasFruitingDates ? undefined : life.colonised);
  if (moved !== undefined && (life.end === undefined || moved <= life.end)) return "fruiting";
  const dose = tray.inoculumMillilitres ?? tray.spawnGrams ?? tray.spawnShare ?? 0;
  const inoculated = tray.inoculatedOn !== undefined || tray.daysToHarvest !== undefined || dose > 0;
  return inoculated ? "incubation" : "filling";
}

/** The last date anything is recorded on, so that growing trays have cost something up to then. */
function lastDateIn(trays: ReadonlyArray<Tray>): number | undefined {
  let last: number | undefined;
  for (const tray of trays) {
    for (const date of [tray.inoculatedOn, tray.colonisedOn, tray.fruitingOn, tray.driedOn]) {
      const day = dayOf(date);
      if (day !== undefined && (last === undefined || day > last)) last = day;
    }
    const picked = lastPicking(tray);
    if (picked !== undefined && (last === undefined || picked > last)) last = picked;
  }
  return last;
}

/**
 * Lays out each tray's life. A good tray without a harvest day gets the mean time of the other good trays. A lost tray
 * without one gets the mean of the other lost trays; where no day of loss is recorded at all, a tray never moved to
 * fruiting gets the mean time at which others were moved, and one that was moved the mean time of the good trays; but
 * never less than the last day something is recorded of it. A tray that was fruited without a date for it was moved
 * after the mean time of the others.
 * @param lookedAt ISO date at which growing trays are looked at; "" takes the last date in the records
 * @returns one life per tray, in order
 * @throws RangeError if a date does not exist
 */
export function trayLives(trays: ReadonlyArray<Tray>, lookedAt: string): TrayLife[] {
  const recorded = trays.map(recordedLife);
  const today = lookedAt === "" ? lastDateIn(trays) : dayNumber(lookedAt);
  const bookHasFruitingDates = recorded.some(({ fruiting }) => fruiting !== undefined);
  const timesOf = (wanted: (tray: Tray) => boolean): number[] =>
    recorded.flatMap(({ start, end }, index) =>
      start !== undefined && end !== undefined && wanted(trays[index]!) ? [end - start] : [],
    );
  const goodTime = mean(timesOf(({ outcome }) => outcome === "good"));
  const lostTime = mean(timesOf(isLost));
  const timeToFruiting = mean(
    recorded.flatMap(({ start, fruiting, colonised }) => {
      const moved = fruiting ?? colonised;
      return start === undefined || moved === undefined ? [] : [moved - start];
    }),
  );

  return recorded.map((life, index) => {
    const tray = trays[index]!;
    // a stage is judged on what is recorded: what other trays took says nothing about how far this one came
    const reached = reachedStage(tray, life, bookHasFruitingDates);
    const wasMoved = stageOrder(reached) >= stageOrder("fruiting");
    const lastSeen = Math.max(life.start ?? 0, life.colonised ?? 0, life.fruiting ?? 0);
    let { end } = life;
    let isTypical = false;
    if (!hasEnded(tray)) {
      end = life.start === undefined || today === undefined ? undefined : Math.max(life.start, today);
    } else if (end === undefined && life.start !== undefined) {
      const time =
        tray.outcome === "good" ? goodTime : (lostTime ?? (wasMoved ? goodTime : (timeToFruiting ?? goodTime)));
      isTypical = time !== undefined;
      if (time !== undefined) end = Math.max(life.start + time, lastSeen);
    }
    let { fruiting } = life;
    if (wasMoved && (fruiting ?? life.colonised) === undefined && life.start !== undefined && end !== undefined) {
      if (timeToFruiting !== undefined) fruiting = Math.min(end, life.start + timeToFruiting);
      isTypical ||= fruiting !== undefined;
    }
    const { start, colonised, dried } = life;
    return { start, colonised, fruiting, end, dried, isTypical, reached };
  });
}

/** Whether a tray came far enough for a cost of this stage to be spent on it. */
export const hasReached = (life: TrayLife, stage: Stage): boolean => stageOrder(life.reached) >= stageOrder(stage);

/**
 * Days a tray is charged for by a line counted per day of shelf: of the stage the line belongs to.
 * @param stage incubation: until it was moved to fruiting; fruiting: from then on; drying: from the last picking until
 *   dried; any other: the whole time
 * @returns undefined when the dates do not tell
 */
export function daysCharged(life: TrayLife, stage: Stage): number | undefined {
  const { start, end } = life;
  const moved = life.fruiting ?? life.colonised;
  const between = (from: number | undefined, to: number | undefined): number | undefined =>
    from === undefined || to === undefined ? undefined : Math.max(0, to - from);
  if (stage === "incubation") {
    // a tray never moved spent all its time there
    const left = moved ?? (hasReached(life, "fruiting") ? undefined : end);
    return between(start, left === undefined || end === undefined ? left : Math.min(left, end));
  }
  if (stage === "fruiting") return between(moved, end);
  if (stage === "drying") return between(end, life.dried);
  return between(start, end);
}

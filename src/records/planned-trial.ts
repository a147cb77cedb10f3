import { counted } from "./counted.ts";
import { pickingsOf, type Tray } from "./tray.ts";

/** A trial as its plan was written: every row of its sheet says so, so that it is known again when it comes back filled in. */
export interface PlannedTrial {
  /** ISO 8601 date of the plan */
  plannedOn: string;
  /** column of what it varies, canonical or the grower's own: the trial's question */
  varies: string;
  cooks: number;
}

/** The column of a plan's own sheet that says which trial a tray belongs to. */
export const plannedTrialColumn = "planned_trial";

/**
 * The cell of that column. Plans are always drawn by lot.
 * @example plannedTrialText({ plannedOn: "2026-03-02", varies: "inoculum_ml", cooks: 3 }) // "2026-03-02: inoculum_ml over 3 cooks drawn by lot"
 */
export const plannedTrialText = ({ plannedOn, varies, cooks }: PlannedTrial): string =>
  `${plannedOn}: ${varies} over ${counted(cooks, "cook")} drawn by lot`;

const written = /^(\d{4}-\d{2}-\d{2}): (.+) over (\d{1,3}) cooks? drawn by lot$/;

/** The trial that a tray belongs to; undefined where its row came from no plan. */
export function plannedTrialOf({ factors }: Pick<Tray, "factors">): PlannedTrial | undefined {
  const text = factors[plannedTrialColumn];
  if (text === undefined) return undefined;
  const found = written.exec(text.trim());
  return found === null ? undefined : { plannedOn: found[1]!, varies: found[2]!, cooks: Number(found[3]) };
}

/**
 * Whether a tray is planned and not started: its row is still as its plan wrote it, without a date, a weight or an
 * outcome, or its day of inoculation is to come.
 * @param today ISO 8601 date; without one no day is to come
 */
export function isOnlyPlanned(tray: Tray, today: string | undefined): boolean {
  if (tray.outcome !== "growing") return false;
  const { inoculatedOn, colonisedOn, fruitingOn, harvestedOn, driedOn, daysToColonise, daysToHarvest } = tray;
  const signs = [colonisedOn, fruitingOn, harvestedOn, driedOn, daysToColonise, daysToHarvest];
  if (pickingsOf(tray).length > 0 || signs.some((sign) => sign !== undefined)) return false;
  if (inoculatedOn !== undefined) return today !== undefined && inoculatedOn > today;
  return tray.factors[plannedTrialColumn] !== undefined && plannedTrialOf(tray) !== undefined;
}

/** The latest trial of a book that came from a plan, and whether every tray of the book belongs to it. */
export function trialInBook(trays: ReadonlyArray<Tray>): { trial: PlannedTrial; isWholeBook: boolean } | undefined {
  let latest: PlannedTrial | undefined;
  const texts = new Set<string>();
  for (const tray of trays) {
    const trial = plannedTrialOf(tray);
    texts.add(trial === undefined ? "" : plannedTrialText(trial));
    if (trial !== undefined && (latest === undefined || trial.plannedOn >= latest.plannedOn)) latest = trial;
  }
  return latest === undefined ? undefined : { trial: latest, isWholeBook: texts.size === 1 };
}

/** The trays of the latest planned trial; all trays where no row came from a plan. */
export function traysOfPlan(trays: ReadonlyArray<Tray>): ReadonlyArray<Tray> {
  const found = trialInBook(trays);
  return found === undefined
    ? trays
    : trays.filter((tray) => plannedTrialOf(tray)?.plannedOn === found.trial.plannedOn);
}

import type { Settings } from "../../records/setting.ts";
import type { ColumnPlan } from "../columns/column-plan.ts";
import type { DateConventions } from "../dates/parse-date.ts";
import type { DashedDates, DateEvidence, TableEvidence } from "./table-evidence.ts";

/** How a sheet's open dates came to be read, for the log. */
export interface DatesAgreed {
  setting: "date_order" | "serial_dates";
  result: string;
  reason: string;
  columns: string[];
  /** taken for want of evidence, not from it */
  assumed: boolean;
}

const ofCounts = (dayFirst: number, monthFirst: number): DateConventions["order"] =>
  dayFirst > 0 === monthFirst > 0 ? "" : dayFirst > 0 ? "day first" : "month first";

const monthsApart = (iso: string): number => Number(iso.slice(0, 4)) * 12 + Number(iso.slice(5, 7));

/** Whether two stretches of time, as ISO dates, overlap or lie within a crop's length of each other. */
const near = (first: string, last: string, otherFirst: string, otherLast: string): boolean =>
  monthsApart(first) <= monthsApart(otherLast) + 8 && monthsApart(otherFirst) <= monthsApart(last) + 8;

/** What a serial number of the 1900 system means in that of 1904, but for a day. */
const fourYearsLater = (iso: string): string => `${Number(iso.slice(0, 4)) + 4}${iso.slice(4)}`;

function epochOf(
  columns: DateEvidence[],
  { backward }: TableEvidence,
): { epoch: "1900" | "1904"; reason: string; assumed: boolean } {
  if (backward.in1900 === 0 && backward.in1904 > 0) {
    return { epoch: "1900", reason: "in the other system stages of a tray would run backwards", assumed: false };
  }
  if (backward.in1904 === 0 && backward.in1900 > 0) {
    return { epoch: "1904", reason: "in the other system stages of a tray would run backwards", assumed: false };
  }
  const typed = columns.filter(({ first }) => first !== "");
  const counted = columns.filter(({ serials }) => serials > 0);
  if (typed.length > 0) {
    const first = typed.map((column) => column.first).sort()[0]!;
    const last = typed
      .map((column) => column.last)
      .sort()
      .at(-1)!;
    const firstSerial = counted.map((column) => column.firstSerial).sort()[0]!;
    const lastSerial = counted
      .map((column) => column.lastSerial)
      .sort()
      .at(-1)!;
    const in1900 = near(firstSerial, lastSerial, first, last);
    const in1904 = near(fourYearsLater(firstSerial), fourYearsLater(lastSerial), first, last);
    if (in1900 !== in1904) {
      return { epoch: in1900 ? "1900" : "1904", reason: "so they fall among the sheet's other dates", assumed: false };
    }
  }
  return {
    epoch: "1900",
    reason: "most spreadsheets count so; numbers of days between dates are the same either way",
    assumed: true,
  };
}

const spread = ([least, most]: [number, number]): number => most - least;

/** The years that a sheet's dates in plain sight fall into, with one to either side. */
function yearsAround(all: ReadonlyArray<DateEvidence>): [number, number] {
  const known = all.filter(({ first }) => first !== "");
  const years = known.flatMap(({ first, last }) => [Number(first.slice(2, 4)), Number(last.slice(2, 4))]);
  return [Math.min(...years) - 1, Math.max(...years) + 1];
}

/**
 * Whether the year stands first in dates such as "26-01-14": years keep together, days do not.
 * @returns undefined where both ends could be years
 */
function isYearFirst({ first, third }: DashedDates, years: [number, number]): boolean | undefined {
  if (first[1] > 31 || third[1] > 31) return third[1] <= 31;
  if (spread(first) <= 2 && spread(third) > 3) return true;
  if (spread(third) <= 2 && spread(first) > 3) return false;
  const within = ([least, most]: [number, number]): boolean => least >= years[0] && most <= years[1];
  return within(first) === within(third) ? undefined : within(first);
}

/** Whether the year stands first by the rows: read the other way round their stages would run backwards or lie years apart. */
function yearFirstByStages({ backward: { yearFirst, yearLast } }: TableEvidence): boolean | undefined {
  return yearFirst > 0 === yearLast > 0 ? undefined : yearLast > 0;
}

/**
 * Settles the order of dates such as "26-01-14", column by column; where the year stands last, what they show of day and
 * month counts with the rest.
 * @returns by column of such dates whether the year stands first; undefined where that is open
 */
function agreeOnDashed(
  columns: ReadonlyArray<ColumnPlan>,
  evidence: TableEvidence,
  settings: Settings,
  agreed: DatesAgreed[],
): Map<ColumnPlan, boolean | undefined> {
  const yearFirst = new Map<ColumnPlan, boolean | undefined>();
  const all = columns.map(({ index }) => evidence.dates.get(index)!);
  const years = yearsAround(all);
  for (const plan of columns) {
    const column = evidence.dates.get(plan.index)!;
    const { dashed } = column;
    if (dashed === undefined || settings.dateOrder !== "") continue;
    const first = isYearFirst(dashed, years) ?? yearFirstByStages(evidence);
    yearFirst.set(plan, first);
    if (first === true) {
      const reason = "their first numbers keep together as years do, or the stages of a tray would lie years apart";
      agreed.push({ setting: "date_order", result: "year first", reason, columns: [plan.header], assumed: false });
    } else if (first === false) {
      column.dayFirst += dashed.dayFirst;
      column.monthFirst += dashed.monthFirst;
    }
  }
  return yearFirst;
}

/**
 * The order of day and month and the system of serial dates for a table's columns of dates: as the settings say, else as
 * dates with a number above 12 show, else as the stages of a tray allow, else as the sheet's other tables agree on. Where
 * nothing decides the order stays open.
 * @param besides what the other tables agree on
 * @returns what was concluded, for the log
 */
export function agreeOnDates(
  plans: ReadonlyArray<ColumnPlan>,
  evidence: TableEvidence,
  settings: Settings,
  besides: DateConventions["order"],
): DatesAgreed[] {
  const agreed: DatesAgreed[] = [];
  const columns = plans.filter(({ index }) => evidence.dates.has(index));
  const all = columns.map(({ index }) => evidence.dates.get(index)!);
  const sum = (pick: (column: DateEvidence) => number): number =>
    all.reduce((total, column) => total + pick(column), 0);
  const namesOf = (pick: (column: DateEvidence) => number): string[] =>
    columns.filter(({ index }) => pick(evidence.dates.get(index)!) > 0).map(({ header }) => header);
  const yearFirst = agreeOnDashed(columns, evidence, settings, agreed);
  const dayFirst = sum((column) => column.dayFirst) + evidence.besideDates.dayFirst;
  const monthFirst = sum((column) => column.monthFirst) + evidence.besideDates.monthFirst;
  const ambiguous = columns
    .filter((plan) => yearFirst.get(plan) !== true && evidence.dates.get(plan.index)!.ambiguous > 0)
    .map(({ header }) => header);
  let sheet: DateConventions["order"] = settings.dateOrder;
  if (sheet === "") {
    sheet = ofCounts(dayFirst, monthFirst);
    let reason = "other dates in the sheet have a number above 12 in that place";
    const { backward } = evidence;
    // where a year may stand first, what its date would be with day or month there tells nothing of the other dates
    const isYearLast = [...yearFirst.values()].every((first) => first === false);
    if (isYearLast && dayFirst + monthFirst === 0 && backward.dayFirst > 0 !== backward.monthFirst > 0) {
      sheet = backward.dayFirst > 0 ? "month first" : "day first";
      reason = "in the other order stages of a tray would run backwards";
    }
    if (sheet === "" && dayFirst + monthFirst === 0) {
      sheet = besides;
      reason = "dates of another table in the sheet have a number above 12 in that place";
    }
    if (sheet !== "" && ambiguous.length > 0) {
      agreed.push({ setting: "date_order", result: sheet, reason, columns: ambiguous, assumed: false });
    }
  }
  for (const plan of columns) {
    const column = evidence.dates.get(plan.index)!;
    // a sheet that shows both orders may still keep to one in each column
    const own = ofCounts(column.dayFirst, column.monthFirst);
    plan.dates = { ...plan.dates, order: yearFirst.get(plan) === true ? "year first" : sheet || own };
    if (sheet === "" && own !== "" && column.ambiguous > 0) {
      const reason = "other dates in the column have a number above 12 in that place";
      agreed.push({ setting: "date_order", result: own, reason, columns: [plan.header], assumed: false });
    }
  }
  const serial = namesOf((column) => column.serials);
  if (settings.serialDates === "" && serial.length > 0) {
    const { epoch, reason, assumed } = epochOf(all, evidence);
    for (const plan of columns) plan.dates = { ...plan.dates, epoch };
    agreed.push({ setting: "serial_dates", result: epoch, reason, columns: serial, assumed });
  }
  return agreed;
}

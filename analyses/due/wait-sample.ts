import type { Tray } from "../../src/records/tray.ts";
import type { DueDay, KnownDays } from "./known-days.ts";

/** What a tray waits for next. */
export type Step = "colonise" | "move" | "harvest" | "flush";

/** What the days are counted from. */
export type Start = "inoculated" | "colonised" | "fruiting" | "picked";

/** Something to wait for, and what its days are counted from. */
export interface Stretch {
  from: Start;
  to: Step;
}

/** A tray with what is known of its days. */
export interface DatedTray {
  tray: Tray;
  days: KnownDays;
}

/**
 * How long one tray took, in whole days: a step seen on day 12 came after 12 and before 13 full days, so `lower` 12 and
 * `upper` 13; `upper` is Infinity while it waits.
 */
export interface Wait {
  lower: number;
  upper: number;
  /** the cook, or the day of inoculation where no cook is written down */
  group: string;
}

/** The day a stretch starts for a tray: its last picking where it waits for the next flush. */
export function startOf({ days }: DatedTray, from: Start): number | undefined {
  return from === "picked" ? days.picked.at(-1) : days[from];
}

function endOf({ days }: DatedTray, to: Step): number | undefined {
  if (to === "colonise") return days.colonised;
  if (to === "move") return days.fruiting;
  return days.picked[0];
}

const groupOf = ({ tray, days }: DatedTray): string =>
  JSON.stringify([tray.batch ?? "", tray.batch ?? days.inoculated]);

/** Whole days between two dates; none where they run backwards. */
const took = (from: number, to: number, group: string): Wait[] =>
  to < from ? [] : [{ lower: to - from, upper: to - from + 1, group }];

/**
 * What one tray tells of a stretch: each wait that ended, and one that goes on. A tray that was lost, or thrown out before
 * it got there, tells nothing: the days are those of trays that get there.
 */
function waitsOf(dated: DatedTray, { from, to }: Stretch, { known }: DueDay): Wait[] {
  const { tray, days } = dated;
  const group = groupOf(dated);
  if (to === "flush") {
    const between = days.picked.slice(1).flatMap((day, index) => took(days.picked[index]!, day, group));
    const last = days.picked.at(-1);
    const goesOn = days.grows && last !== undefined && known > last;
    return goesOn ? [...between, { lower: known - last, upper: Number.POSITIVE_INFINITY, group }] : between;
  }
  const [start, end] = [startOf(dated, from), endOf(dated, to)];
  if (start !== undefined && end !== undefined) return took(start, end, group);
  const bounds =
    from === "inoculated" ? tray.bounds[to === "colonise" ? "days_to_colonise" : "days_to_harvest"] : undefined;
  if (bounds !== undefined && to !== "move") {
    const [low, high] = [bounds.low ?? 0, bounds.high ?? Number.POSITIVE_INFINITY];
    return low < 0 || high < low ? [] : [{ lower: Math.floor(low), upper: Math.floor(high) + 1, group }];
  }
  // a later step is written down but this one is not: it was not noted, so nothing is waited for
  const passed = days.picked.length > 0 || (to === "colonise" && days.fruiting !== undefined);
  if (start === undefined || passed || !days.grows || known <= start) return [];
  return [{ lower: known - start, upper: Number.POSITIVE_INFINITY, group }];
}

/** a tray that has waited this many times the longest wait that ended was lost or is not written down: it tells nothing */
const forgottenAfter = 2;

/** The waits of many trays, without the trays that must have been forgotten. */
export function waitSample(trays: ReadonlyArray<DatedTray>, stretch: Stretch, day: DueDay): Wait[] {
  const every = trays.flatMap((one) => waitsOf(one, stretch, day));
  let longest = 0;
  for (const { upper } of every) if (Number.isFinite(upper) && upper > longest) longest = upper;
  return every.filter(
    ({ lower, upper }) => Number.isFinite(upper) || longest === 0 || lower <= forgottenAfter * longest,
  );
}

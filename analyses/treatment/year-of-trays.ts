import type { Trial } from "../../src/analysis.ts";
import { daysBetween } from "../../src/measures/day-number.ts";
import type { Tray } from "../../src/records/tray.ts";
import type { TrialTerms } from "./step-words.ts";

/** Fillings of the shelves in a year where a book has no dates: a crop of about two months. Common practice, no source. */
const usualFillings = 6;

/** Trays started in a year at the rate of the book; from the shelf places where dates are missing or span under a month. */
export function startsPerYear({ trays, settings }: Pick<Trial, "trays" | "settings">): number {
  let [first, last]: [string | undefined, string | undefined] = [undefined, undefined];
  let started = 0;
  for (const { inoculatedOn: date, traysInPool } of trays) {
    if (date === undefined) continue;
    started += traysInPool;
    if (first === undefined || date < first) first = date;
    if (last === undefined || date > last) last = date;
  }
  const days = first === undefined || last === undefined ? 0 : daysBetween(first, last);
  if (days < 28) return usualFillings * settings.shelfPlaces;
  // the last cook's own interval to the next counts too: as many gaps as cooks, on average
  const dates = new Set(trays.flatMap(({ inoculatedOn }) => inoculatedOn ?? [])).size;
  return (started * 365.25) / (days * (dates / Math.max(1, dates - 1)));
}

/** Trays that most groups of a book hold; undefined where that is one, or no tray is in a group. */
function usualSize(trays: Trial["trays"], nameOf: (tray: Tray) => string | undefined): number | undefined {
  const groups = new Map<string, number>();
  for (const tray of trays) {
    const name = nameOf(tray);
    if (name !== undefined) groups.set(name, (groups.get(name) ?? 0) + tray.traysInPool);
  }
  const sizes = new Map<number, number>();
  for (const size of groups.values()) sizes.set(size, (sizes.get(size) ?? 0) + 1);
  const [usual] = [...sizes].sort((a, b) => b[1] - a[1] || b[0] - a[0]);
  return usual === undefined || usual[0] < 2 ? undefined : usual[0];
}

/** Trays of one cooker load: as most loads of the book were, else as the settings say. */
export const traysPerLoadOf = ({ trays, settings }: Pick<Trial, "trays" | "settings">): number =>
  usualSize(trays, ({ batch, load }) => (load === undefined ? undefined : JSON.stringify([batch, load]))) ??
  settings.traysPerLoad;

/** Trays that are started together: as most cooks of the book were, else a cooker load. */
export const traysPerCookOf = (trial: Pick<Trial, "trays" | "settings">): number =>
  usualSize(trial.trays, ({ batch }) => batch) ?? traysPerLoadOf(trial);

/** What untried doses of a book are judged by. */
export const trialTerms = (trial: Pick<Trial, "trays" | "settings">): TrialTerms => ({
  traysAYear: startsPerYear(trial),
  traysPerLoad: traysPerLoadOf(trial),
  ownerLabourRate: trial.settings.ownerLabourRate,
});

import { startedCount } from "../../src/design/arm.ts";
import type { Settings } from "../../src/records/setting.ts";
import type { Tray } from "../../src/records/tray.ts";
import { BookDays, type Scope, usualDays } from "./days-of-kind.ts";
import { type DueDay, dueDay, knownDays } from "./known-days.ts";
import { lossChance, lostBefore } from "./loss-chance.ts";
import { fewestDone } from "./wait-curve.ts";
import { type DatedTray, type Start, type Step, type Stretch, startOf } from "./wait-sample.ts";

/** Where a forecast comes from: days of this book, or the range the trade takes as usual. */
export type Basis = { kind: "own"; scope: Scope; done: number; waiting: number } | { kind: "usual" };

/** When something is expected of a tray; days are day numbers. */
export interface DueWindow {
  step: Step;
  from: Start;
  start: number;
  /** first and last day: 8 of 10 such trays fall into it, or the usual range */
  low: number;
  high: number;
  /** as many come sooner as later; absent for the usual range */
  likely?: number;
  /** the last day by which 19 of 20 such trays are there, or the end of the usual range */
  late: number;
  basis: Basis;
}

/** How urgent a tray is: "lost" is more likely lost than slow. */
export type DueState = "lost" | "overdue" | "due" | "coming";

/** What is due of one growing tray. */
export interface DueTray {
  tray: Tray;
  state: DueState;
  /** what comes next */
  next: DueWindow;
  /** the harvest, where another step comes before it */
  harvest?: DueWindow;
  /** chance that the tray never gets there, 0 to 1; absent where the book's own days do not tell */
  lossChance?: number;
  /** of a tray that counts as good: share of such trays that gave another flush, 0 to 1 */
  again?: number;
}

/** What is due of a book's growing trays on one day. */
export interface DueTrays {
  day: DueDay;
  trays: DueTray[];
  /** good trays of which another flush is more likely than not, if they still stand */
  flushes: DueTray[];
  /** growing trays without a date to count from */
  undated: Tray[];
}

/** How many trays are expected; a pool counts as its trays. */
export const dueCount = (trays: ReadonlyArray<DueTray>): number => startedCount(trays.map(({ tray }) => tray));

/** shares of such trays that are there by the first, middle and last day, and by the day after which a tray is overdue */
const shares = { low: 0.1, likely: 0.5, high: 0.9, late: 0.95 } as const;

/** A good tray is listed for another flush where at least this share of such trays gave one. */
const worthWaiting = 0.5;

/** A growing tray whose chance to be lost is above this is pointed out as lost. */
const likelyLost = 0.5;

const order: ReadonlyArray<Start> = ["fruiting", "colonised", "inoculated"];

/**
 * A step and the harvest after it in the order in which a tray goes through them: the usual range of the trade gives way to
 * the book's own days, and the book's own days of the step move a harvest that would come too soon after it.
 * @param fewest days from the step to the harvest
 */
function inTurn(next: DueWindow, harvest: DueWindow, fewest: number): { next: DueWindow; harvest: DueWindow } {
  if (next.basis.kind === "usual" && harvest.basis.kind === "own") {
    const before = (day: number, of: number): number => Math.max(next.start, Math.min(day, of - fewest));
    const low = before(next.low, harvest.low);
    const high = Math.max(low, before(next.high, harvest.high));
    return { next: { ...next, low, high, late: Math.max(high, before(next.late, harvest.late)) }, harvest };
  }
  const after = (day: number, of: number): number => Math.max(day, of + fewest);
  const likely = harvest.likely === undefined ? {} : { likely: after(harvest.likely, next.likely ?? next.low) };
  const [low, high] = [after(harvest.low, next.low), after(harvest.high, next.high)];
  return { next, harvest: { ...harvest, ...likely, low, high, late: Math.max(high, after(harvest.late, next.late)) } };
}

class Forecast {
  private readonly book: BookDays;
  private readonly lost = new Map<string, number>();
  private readonly flushShares = new Map<number, { value: number | undefined }>();

  constructor(
    private readonly trays: ReadonlyArray<DatedTray>,
    private readonly day: DueDay,
    private readonly settings: Settings,
  ) {
    this.book = new BookDays(trays, day);
  }

  /** When a step is expected, from the latest day of the tray's life that tells it. */
  window(dated: DatedTray, to: Step): DueWindow | undefined {
    const froms: ReadonlyArray<Start> = to === "flush" ? ["picked"] : order;
    for (const from of froms) {
      const start = startOf(dated, from);
      if (start === undefined) continue;
      const own = this.own(dated, { from, to }, start);
      if (own !== undefined) return own;
    }
    const start = startOf(dated, "inoculated");
    const usual = usualDays({ from: "inoculated", to }, this.settings);
    if (start === undefined || usual === undefined) return undefined;
    const [low, high] = [start + Math.floor(usual.low), start + Math.ceil(usual.high)];
    return { step: to, from: "inoculated", start, low, high, late: high, basis: { kind: "usual" } };
  }

  private own(dated: DatedTray, { from, to }: Stretch, start: number): DueWindow | undefined {
    if ((to === "colonise" && from !== "inoculated") || (to === "move" && from === "fruiting")) return undefined;
    const kind = this.book.of(dated, { from, to });
    if (kind === undefined) return undefined;
    const { scope, curve } = kind;
    const waited = Math.max(0, this.day.known - start);
    const low = start + curve.dayBy(shares.low, waited);
    const likely = Math.max(low, start + curve.dayBy(shares.likely, waited));
    const high = Math.max(likely, start + curve.dayBy(shares.high, waited));
    const late = start + Math.max(curve.dayBy(shares.high, 0), curve.dayBy(shares.late, 0));
    const basis = { kind: "own", scope, done: curve.done, waiting: curve.waiting } as const;
    return { step: to, from, start, low, high, likely, late, basis };
  }

  /** Steps the tray has still to go, in order; those that the book never notes are left out. */
  private steps({ days }: DatedTray): Step[] {
    if (days.picked.length > 0) return this.book.isNoted({ from: "picked", to: "flush" }) ? ["flush"] : [];
    if (days.fruiting !== undefined) return ["harvest"];
    const anyHarvest = this.book.isNoted({ from: "inoculated", to: "harvest" });
    const notes = (from: Start, to: Step) => this.book.isNoted({ from, to });
    const colonise = days.colonised === undefined && (notes("inoculated", "colonise") || !anyHarvest);
    const move = notes("colonised", "move") || notes("inoculated", "move");
    return [...(colonise ? (["colonise"] as const) : []), ...(move ? (["move"] as const) : []), "harvest"];
  }

  private chanceLost(dated: DatedTray, { step, from, start }: DueWindow): number | undefined {
    const kind = this.book.of(dated, { from, to: step });
    if (kind === undefined || step === "flush") return undefined;
    const key = `${from} ${step}`;
    let lost = this.lost.get(key);
    if (lost === undefined) {
      const stretch = { from, to: step };
      const slowOf = (one: DatedTray) =>
        this.book.of(one, stretch)?.curve.slow(Math.max(0, this.day.known - startOf(one, from)!));
      lost = lostBefore(this.trays, stretch, slowOf);
      this.lost.set(key, lost);
    }
    return lossChance(lost, kind.curve.slow(Math.max(0, this.day.known - start)));
  }

  /** Share of good trays that gave another flush after this many; undefined where fewer than three tell. */
  private again(pickings: number, late: number): number | undefined {
    let share = this.flushShares.get(pickings);
    if (share === undefined) {
      let [more, none] = [0, 0];
      for (const { tray, days } of this.trays) {
        if (tray.outcome !== "good" || days.picked.length < pickings) continue;
        if (days.picked.length > pickings) more++;
        else if (!days.grows && this.day.known - days.picked.at(-1)! > late) none++;
      }
      share = more + none < fewestDone ? { value: undefined } : { value: (more + 0.5) / (more + none + 1) };
      this.flushShares.set(pickings, share);
    }
    return share.value;
  }

  /** The next flush of a tray that counts as good, where one is more likely than not. */
  flushOf(dated: DatedTray): DueTray | undefined {
    const { tray, days } = dated;
    if (tray.outcome !== "good" || days.grows || days.picked.length === 0) return undefined;
    if (!this.book.isNoted({ from: "picked", to: "flush" })) return undefined;
    const next = this.window(dated, "flush");
    if (next === undefined || this.day.on > next.late) return undefined;
    const again = this.again(days.picked.length, next.late - next.start);
    if (again === undefined || again < worthWaiting) return undefined;
    return { tray, state: this.day.on >= next.low ? "due" : "coming", next, again };
  }

  /** The harvest of a tray that is late with an earlier step: as long after that step as others took from it. */
  private harvestAfter(dated: DatedTray, next: DueWindow, straight: DueWindow): DueWindow {
    const kind = this.book.of(dated, { from: next.step === "colonise" ? "colonised" : "fruiting", to: "harvest" });
    if (kind === undefined) return straight;
    const { scope, curve } = kind;
    const low = next.low + curve.dayBy(shares.low, 0);
    const likely = Math.max(low, (next.likely ?? next.low) + curve.dayBy(shares.likely, 0));
    const high = Math.max(likely, next.high + curve.dayBy(shares.high, 0));
    const basis = { kind: "own", scope, done: curve.done, waiting: curve.waiting } as const;
    return { ...straight, low, likely, high, basis };
  }

  /** Fewest days from a step to the harvest: what nine of ten trays took at least; 0 where the book does not tell. */
  private fewestAfter(dated: DatedTray, step: Step): number {
    const kind = this.book.of(dated, { from: step === "colonise" ? "colonised" : "fruiting", to: "harvest" });
    return kind === undefined ? 0 : Math.max(0, kind.curve.dayBy(shares.low, 0));
  }

  of(dated: DatedTray): DueTray | undefined {
    const windows = this.steps(dated).flatMap((step) => this.window(dated, step) ?? []);
    const [first] = windows;
    if (first === undefined) return undefined;
    const later = windows.find(({ step }) => step === "harvest" && step !== first.step);
    const { next, harvest: straight } =
      later === undefined ? { next: first, harvest: later } : inTurn(first, later, this.fewestAfter(dated, first.step));
    const chance = next.basis.kind === "own" ? this.chanceLost(dated, next) : undefined;
    const { on } = this.day;
    const overdue = on > next.late;
    const harvest = straight !== undefined && overdue ? this.harvestAfter(dated, next, straight) : straight;
    const state: DueState =
      overdue && chance !== undefined && chance > likelyLost
        ? "lost"
        : overdue
          ? "overdue"
          : on >= next.low && !isVague(next)
            ? "due"
            : "coming";
    return {
      tray: dated.tray,
      state,
      next,
      ...(harvest === undefined ? {} : { harvest }),
      ...(chance === undefined ? {} : { lossChance: chance }),
    };
  }
}

const urgency: ReadonlyArray<DueState> = ["lost", "overdue", "due", "coming"];

/** a window of more days than these tells no week to look in: of a harvest by the usual range. Common practice, no source. */
const vague = 31;

/** Whether a window is so wide that nothing can be said to be due in it before its end. */
export const isVague = ({ basis, low, high }: DueWindow): boolean => basis.kind === "usual" && high - low > vague;

/** The day a tray stands under in a list: the likely one, never a past one; the last one where none is likely. */
export const listedDay = ({ next }: DueTray, { on }: DueDay): number =>
  Math.max(on, next.likely ?? (isVague(next) ? next.high : next.low));

/**
 * What is due of every growing tray of a book on a day, the most urgent first: what comes next, when, and whether it is late.
 * Days are this book's own (of the same strain, dose and temperature where there are enough, else of the strain, else all),
 * with growing trays counted as waiting; the usual range of the trade where the book has none.
 * @param on ISO 8601 date
 * @throws RangeError if the date does not exist
 */
export function dueTrays(trays: ReadonlyArray<Tray>, settings: Settings, on: string): DueTrays {
  const day = dueDay(trays, on);
  const dated = trays.flatMap((tray): DatedTray[] => {
    const days = knownDays(tray, day);
    return days === undefined ? [] : [{ tray, days }];
  });
  const forecast = new Forecast(dated, day, settings);
  const growing = dated.filter(({ days }) => days.grows);
  const undated = growing.filter(({ days }) => order.every((from) => days[from] === undefined) && !days.picked.length);
  const without = new Set(undated);
  const due = growing.flatMap((one) => (without.has(one) ? [] : (forecast.of(one) ?? [])));
  const soonest = (a: DueTray, b: DueTray) =>
    urgency.indexOf(a.state) - urgency.indexOf(b.state) ||
    listedDay(a, day) - listedDay(b, day) ||
    a.next.late - b.next.late;
  const flushes = dated.flatMap((one) => forecast.flushOf(one) ?? []);
  return { day, trays: due.sort(soonest), flushes: flushes.sort(soonest), undated: undated.map(({ tray }) => tray) };
}

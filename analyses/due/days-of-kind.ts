import { grouped } from "../../src/records/grouped.ts";
import type { Settings } from "../../src/records/setting.ts";
import type { Tray } from "../../src/records/tray.ts";
import { cookLikeness } from "./cook-likeness.ts";
import type { DueDay } from "./known-days.ts";
import { type WaitCurve, waitCurve } from "./wait-curve.ts";
import { type DatedTray, type Stretch, type Wait, waitSample } from "./wait-sample.ts";

/** Whose days a forecast is made from, the nearest first: trays treated alike, of one strain, of the whole book. */
export type Scope = "alike" | "strain" | "book";

/** The days of the trays a forecast is made from. */
export interface KindDays {
  scope: Scope;
  curve: WaitCurve;
}

/** A range of days that the trade takes as usual, from inoculation: the book's settings. */
export interface UsualDays {
  low: number;
  high: number;
}

/** trays that bound 8 of 10 by themselves: the outermost of nine leave a tenth on either side */
const enough = 9;

const keyOf = ({ tray }: DatedTray, scope: Scope, { to }: Stretch): string => {
  if (scope === "book") return "";
  if (scope === "strain") return tray.strain ?? "";
  const { strain, inoculumMillilitres, spawnGrams, spawnShare, incubationCelsius, fruitingCelsius }: Tray = tray;
  const warmth = to === "harvest" || to === "flush" ? fruitingCelsius : incubationCelsius;
  return JSON.stringify([strain, inoculumMillilitres, spawnGrams, spawnShare, warmth]);
};

/** The days that trays of a book took, by kind; each kind is worked out once, when it is asked for. */
export class BookDays {
  private readonly samples = new Map<string, Map<string, DatedTray[]>>();
  private readonly curves = new Map<string, WaitCurve | undefined>();
  private readonly whole = new Map<string, Wait[]>();
  private readonly alike = new Map<string, number>();

  constructor(
    private readonly trays: ReadonlyArray<DatedTray>,
    private readonly day: DueDay,
  ) {}

  /**
   * The days of the narrowest kind that is known well enough: trays of the same strain, dose and temperature, else of the
   * strain, else of the whole book.
   * @returns undefined where fewer than three trays of the book have got there
   */
  of(tray: DatedTray, stretch: Stretch): KindDays | undefined {
    for (const scope of ["alike", "strain"] as const) {
      const curve = this.curveOf(tray, stretch, scope);
      if (curve !== undefined && curve.effective >= enough) return { scope, curve };
    }
    const curve = this.curveOf(tray, stretch, "book");
    return curve === undefined ? undefined : { scope: "book", curve };
  }

  /** Whether trays of this book are seen to do such a step at all. */
  isNoted(stretch: Stretch): boolean {
    return this.wholeSample(stretch).some(({ upper }) => Number.isFinite(upper));
  }

  private wholeSample(stretch: Stretch): Wait[] {
    const name = `${stretch.from} ${stretch.to}`;
    let waits = this.whole.get(name);
    if (waits === undefined) {
      waits = waitSample(this.trays, stretch, this.day);
      this.whole.set(name, waits);
    }
    return waits;
  }

  private likenessOf(stretch: Stretch): number {
    const name = `${stretch.from} ${stretch.to}`;
    let likeness = this.alike.get(name);
    if (likeness === undefined) {
      likeness = cookLikeness(this.wholeSample(stretch));
      this.alike.set(name, likeness);
    }
    return likeness;
  }

  private curveOf(tray: DatedTray, stretch: Stretch, scope: Scope): WaitCurve | undefined {
    const key = keyOf(tray, scope, stretch);
    const name = JSON.stringify([stretch.from, stretch.to, scope, key]);
    if (!this.curves.has(name)) {
      const own = this.traysBy(scope, stretch).get(key) ?? [];
      this.curves.set(name, waitCurve(waitSample(own, stretch, this.day), this.likenessOf(stretch)));
    }
    return this.curves.get(name);
  }

  private traysBy(scope: Scope, stretch: Stretch): Map<string, DatedTray[]> {
    const name = `${scope} ${stretch.to}`;
    let groups = this.samples.get(name);
    if (groups === undefined) {
      groups = grouped(this.trays, (one) => keyOf(one, scope, stretch));
      this.samples.set(name, groups);
    }
    return groups;
  }
}

/** What the trade takes as usual: the settings; only colonising and the first harvest have such a range. */
export function usualDays({ from, to }: Stretch, settings: Settings): UsualDays | undefined {
  if (from !== "inoculated") return undefined;
  if (to === "colonise") return { low: settings.colonisationDaysLow, high: settings.colonisationDaysHigh };
  if (to === "harvest") return { low: settings.harvestDaysLow, high: settings.harvestDaysHigh };
  return undefined;
}

/** One tray, or one pool of trays weighed together, as a comparison sees it. Objects of one shape are gone through fastest: see {@link changedTray}. */
export interface ComparedTray {
  /** what was varied: a number (a dose) or a name (a strain) */
  level: number | string;
  /** the cook it belongs to, where one is written down */
  cook?: string | undefined;
  /** what it shared with other trays, by kind and name: { shelf: "A", jar: "cook 3, jar 2" }; one name is one real thing in the whole book */
  units?: Readonly<Record<string, string>> | undefined;
  /** inoculation day, counted in days from any fixed day; never the harvest day */
  day?: number | undefined;
  /** place in the sheet; trays are read in this order */
  row: number;
  /** the response of a good tray, a mean per tray where several were weighed together; or that it was lost */
  value: number | "lost";
  /** trays weighed together; 1 unless stated */
  pooled?: number | undefined;
  /** the level of another thing that the same trial varied; where trays have one, that thing is taken out */
  other?: number | string | undefined;
}

/** A tray with something changed, all fields in their order: by the ten thousand that takes a tenth of a spread's time. */
export const changedTray = (
  { level, row, value, units, cook, day, pooled, other }: ComparedTray,
  now: Pick<Partial<ComparedTray>, "level" | "value" | "other">,
): ComparedTray => ({
  level: now.level ?? level,
  row,
  value: now.value ?? value,
  units,
  cook,
  day,
  pooled,
  other: now.other ?? other,
});

/** When a book is read: decides how much of the significance level this reading may use. */
export type Reading =
  /** the first reading a record notes, without a plan and with enough cooks */
  | "first"
  /** the level was kept for it: the planned number of cooks, or enough without a plan, are finished */
  | "awaited"
  /** any other reading of a book that is followed by a plan or a record */
  | "other"
  /** neither plan nor record */
  | "unknown";

/**
 * What is supposed before any tray. The shares are common practice for the dry weight of a tray (trays of one cook differ
 * with a coefficient of variation of 10 to 25 %; steps of a dose that are worth trying change the mean by about an eighth);
 * for another response give `traySd` and `gainSd` in its own unit.
 */
export interface Suppositions {
  /** standard deviation between trays treated alike; .18 of the mean unless stated */
  traySd?: number;
  /** standard deviation of true gains between levels; .12 of the mean unless stated */
  gainSd?: number;
}

export interface VerdictSettings {
  /** significance level; 0.05 unless stated */
  alpha?: number;
  /** "unknown" unless stated */
  reading?: Reading;
  /** the trial's own plan drew which cook gets which level; false unless stated */
  drawnByLot?: boolean;
  /** coefficient of variation of trays treated alike in earlier cooks, a share, with its degrees of freedom */
  traySpread?: { coefficientOfVariation: number; degreesOfFreedom: number };
  suppositions?: Suppositions;
  /** which way a response is better; "higher" unless stated */
  better?: "higher" | "lower";
  /** the level that others are compared with, where one is the usual one; unordered levels only */
  usual?: string | number;
}

/** Settings with every blank filled. */
export interface FilledSettings {
  /** significance level at which this comparison is settled */
  significance: number;
  reading: Reading;
  drawnByLot: boolean;
  traySd(mean: number): number;
  traySdDf: number;
  gainSd(mean: number): number;
  better: "higher" | "lower";
  usual: string | number | undefined;
}

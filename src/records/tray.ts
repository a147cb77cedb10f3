/** What a sheet can say became of a tray, in its canonical words. */
export const outcomes = ["good", "contaminated", "failed", "discarded", "growing"] as const;

/**
 * What became of a tray. "asked": its rows can be read two ways, or not at all, and the log asks which; it counts neither as
 * good nor as lost nor as growing until that is answered.
 */
export type Outcome = (typeof outcomes)[number] | "asked";

/** Whether a word of an outcome says that the tray was lost: it ended without anything to sell. */
export const isLoss = (word: string | undefined): boolean =>
  word === "contaminated" || word === "failed" || word === "discarded";

/** Whether a tray ended without anything to sell. */
export const isLost = ({ outcome }: Pick<Tray, "outcome">): boolean => isLoss(outcome);

/** Whether it is known how a tray ended: picked or lost, neither growing nor asked about. */
export const hasEnded = ({ outcome }: Pick<Tray, "outcome">): boolean => outcome !== "growing" && outcome !== "asked";

/** Where a fact was read. */
export interface RowSource {
  file: string;
  /** as a spreadsheet shows it */
  row: number;
}

/** One picking of a tray. Weights are absent when not known. */
export interface Flush {
  number: number;
  freshGrams?: number;
  dryGrams?: number;
  /** ISO 8601 date */
  harvestedOn?: string;
}

/** A number known only to lie within bounds: typed as ">14", "10-12" or "<1". An end that is not known is absent. */
export interface Bounds {
  low?: number;
  high?: number;
}

/**
 * One started tray, assembled from every row about it; or a pool of trays weighed together.
 * Metric units; dates ISO 8601; a property that is absent is not known, which is not the same as 0.
 */
export interface Tray {
  trayId: string;
  batch?: string;
  load?: string;
  loadPosition?: string;
  jar?: string;
  cultureGeneration?: number;
  cultureAgeDays?: number;
  strain?: string;
  shelf?: string;
  chamber?: string;
  operator?: string;
  container?: string;
  substrateWetGrams?: number;
  grainDryGrams?: number;
  supplement?: string;
  supplementGrade?: string;
  supplementGrams?: number;
  inoculumMillilitres?: number;
  /** grain spawn mixed in */
  spawnGrams?: number;
  /** grain spawn as a share of the wet substrate, 0 to 1 */
  spawnShare?: number;
  addedLiquidMillilitres?: number;
  incubationCelsius?: number;
  fruitingCelsius?: number;
  lightHours?: number;
  inoculatedOn?: string;
  colonisedOn?: string;
  /** typed directly; with both dates the dates win and a disagreement is flagged */
  daysToColonise?: number;
  fruitingOn?: string;
  harvestedOn?: string;
  /** typed directly, from inoculation */
  daysToHarvest?: number;
  driedOn?: string;
  outcome: Outcome;
  /** total over the flushes; for a pool, of the whole pool */
  freshGrams?: number;
  /** total over the flushes; for a pool, of the whole pool */
  dryGrams?: number;
  /** wet basis, 0 to 1 */
  finalMoisture?: number;
  /** trays this record stands for; 1 unless several were weighed together */
  traysInPool: number;
  note?: string;
  /** in the order picked, where it takes a list; none where the tray's own weights and day tell it. `pickingsOf` gives them either way */
  flushes?: Flush[] | undefined;
  /** free columns under their own headers, as typed (trimmed); they can be used as factors */
  factors: Record<string, string>;
  /** cells known only within bounds, by canonical column; the property itself is then absent */
  bounds: Partial<Record<string, Bounds>>;
  /** the row that speaks of this tray, where only one does; else absent */
  file?: string | undefined;
  row?: number | undefined;
  /** every row that speaks of this tray, where several do; absent where its own file and row tell it (`sourcesOf`) */
  sources?: RowSource[] | undefined;
  /** codes of the rules that flagged a cell of this tray with a warning or an error; empty for a clean tray */
  flags: string[];
}

type Picked = Pick<Tray, "flushes" | "freshGrams" | "dryGrams" | "harvestedOn">;

/** A tray's own weights and day as its one picking. They are most often all known: made in one piece they take less memory. */
export function pickingOf(number: number, { freshGrams, dryGrams, harvestedOn }: Omit<Picked, "flushes">): Flush {
  if (freshGrams !== undefined && dryGrams !== undefined && harvestedOn !== undefined)
    return { number, freshGrams, dryGrams, harvestedOn };
  const flush: Flush = { number };
  if (freshGrams !== undefined) flush.freshGrams = freshGrams;
  if (dryGrams !== undefined) flush.dryGrams = dryGrams;
  if (harvestedOn !== undefined) flush.harvestedOn = harvestedOn;
  return flush;
}

/** Every picking of a tray, in the order picked. @example pickingsOf(tray).length // 1 */
export const pickingsOf = (tray: Picked): ReadonlyArray<Flush> =>
  tray.flushes !== undefined && tray.flushes.length > 0
    ? tray.flushes
    : tray.freshGrams === undefined && tray.dryGrams === undefined && tray.harvestedOn === undefined
      ? []
      : [pickingOf(1, tray)];

/** Every row that speaks of a tray. @example sourcesOf(tray).length // 0 */
export const sourcesOf = ({ sources, file, row }: Pick<Tray, "sources" | "file" | "row">): ReadonlyArray<RowSource> =>
  file === undefined || row === undefined ? (sources ?? []) : [{ file, row }];

/** What a record says of the rows that speak of it. */
export const spokenOfBy = (rows: RowSource[]): Pick<Tray, "file" | "row" | "sources"> =>
  rows.length === 1 ? { ...rows[0]!, sources: undefined } : { file: undefined, row: undefined, sources: rows };

/** The first row that speaks of a tray read from a sheet. @throws TypeError for a tray that no row speaks of */
export function sourceOf(tray: Pick<Tray, "trayId" | "sources" | "file" | "row">): RowSource {
  const [source] = sourcesOf(tray);
  if (source === undefined) throw new TypeError(`sourceOf: no row speaks of tray ${tray.trayId}`);
  return source;
}

/** Dose of trays whose dose is not known. */
const noDose = -1;

/** The dose a tray is compared within: of liquid culture in mL, or with grain spawn all amounts as one text. */
export const doseOf = ({ inoculumMillilitres, spawnGrams, spawnShare }: Tray): number | string =>
  spawnGrams === undefined && spawnShare === undefined
    ? (inoculumMillilitres ?? noDose)
    : `${inoculumMillilitres ?? ""}|${spawnGrams ?? ""}|${spawnShare ?? ""}`;

/** A tray's name in a sentence: one that could be a count says what it is. */
export const trayNamed = (name: string): string => (/^\d/.test(name) ? `tray ${name}` : name);

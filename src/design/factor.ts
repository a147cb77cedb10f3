import { type HarvestFieldKey, harvestField } from "../records/harvest-field.ts";
import type { Tray } from "../records/tray.ts";
import { saysNone } from "../records/words/says-none.ts";

/** Something about a tray that may have changed its result: a treatment, a group it belongs to, or a free column. */
export interface Factor {
  /** the canonical column, or "factor:" and the free column's header */
  key: string;
  label: string;
  unit: string;
  /** the tray's level as text; undefined when not recorded */
  level(tray: Tray): string | undefined;
  /** the tray's level as a number, for factors that are amounts */
  value?(tray: Tray): number | undefined;
}

const text = (key: HarvestFieldKey, read: (tray: Tray) => string | undefined): Factor => ({
  key,
  label: harvestField(key).label,
  unit: "",
  level: read,
});

const amount = (key: HarvestFieldKey, read: (tray: Tray) => number | undefined): Factor => ({
  key,
  label: harvestField(key).label,
  unit: harvestField(key).unit,
  level: (tray) => {
    const value = read(tray);
    return value === undefined ? undefined : String(value);
  },
  value: read,
});

/** Liquid culture per tray: the treatment this project is mostly about. */
export const doseFactor: Factor = amount("inoculum_ml", (tray) => tray.inoculumMillilitres);
/** A tray without a supplement has none of any grade, and is as much a level as they are. */
export const gradeFactor: Factor = text(
  "supplement_grade",
  ({ supplementGrade, supplement }) => supplementGrade ?? (supplement && saysNone(supplement) ? supplement : undefined),
);
export const supplementFactor: Factor = text("supplement", (tray) => tray.supplement);
export const supplementAmountFactor: Factor = amount("supplement_g", (tray) => tray.supplementGrams);
export const spawnFactor: Factor = amount("spawn_g", (tray) => tray.spawnGrams);
export const spawnRateFactor: Factor = amount("spawn_pct", (tray) =>
  tray.spawnShare === undefined ? undefined : Number((tray.spawnShare * 100).toPrecision(12)),
);
export const fruitingFactor: Factor = amount("fruiting_c", (tray) => tray.fruitingCelsius);
export const incubationFactor: Factor = amount("incubation_c", (tray) => tray.incubationCelsius);
export const cultureAgeFactor: Factor = amount("culture_age_days", (tray) => tray.cultureAgeDays);
export const generationFactor: Factor = amount("culture_generation", (tray) => tray.cultureGeneration);
export const batchFactor: Factor = text("batch", (tray) => tray.batch);
export const loadFactor: Factor = text("load", (tray) => tray.load);
export const jarFactor: Factor = text("jar", (tray) => tray.jar);
export const chamberFactor: Factor = text("chamber", (tray) => tray.chamber);
export const shelfFactor: Factor = text("shelf", (tray) => tray.shelf);
export const operatorFactor: Factor = text("operator", (tray) => tray.operator);
export const positionFactor: Factor = text("load_position", (tray) => tray.loadPosition);
export const strainFactor: Factor = text("strain", (tray) => tray.strain);
export const containerFactor: Factor = text("container", (tray) => tray.container);
export const lightFactor: Factor = amount("light_hours", (tray) => tray.lightHours);
export const addedLiquidFactor: Factor = amount("added_liquid_ml", (tray) => tray.addedLiquidMillilitres);
export const substrateFactor: Factor = amount("substrate_wet_g", (tray) => tray.substrateWetGrams);
export const grainFactor: Factor = amount("grain_dry_g", (tray) => tray.grainDryGrams);

/** The day of inoculation as a level, to see whether a treatment is tied to a date. */
export const inoculationDayFactor: Factor = text("inoculated_on", (tray) => tray.inoculatedOn);

/** Three months of a year by their months, since what is spring here is autumn elsewhere. */
const quarters = ["Dec to Feb", "Mar to May", "Jun to Aug", "Sep to Nov"] as const;

/** Three months of one year: "2026 Mar to May". December counts to the year that follows. */
export const seasonFactor: Factor = {
  key: "season",
  label: "Season",
  unit: "",
  level: ({ inoculatedOn }) => {
    if (inoculatedOn === undefined) return undefined;
    const [year, month] = inoculatedOn.split("-").map(Number) as [number, number];
    return `${month === 12 ? year + 1 : year} ${quarters[Math.floor((month % 12) / 3)]}`;
  },
};

/** The year of inoculation. */
export const yearFactor: Factor = {
  key: "year",
  label: "Year",
  unit: "",
  level: ({ inoculatedOn }) => inoculatedOn?.slice(0, 4),
};

/** Things a treatment can be tied to by accident. */
export const companionFactors: ReadonlyArray<Factor> = [
  batchFactor,
  loadFactor,
  jarFactor,
  inoculationDayFactor,
  cultureAgeFactor,
  generationFactor,
  chamberFactor,
  shelfFactor,
  operatorFactor,
  gradeFactor,
  supplementFactor,
  supplementAmountFactor,
  strainFactor,
  containerFactor,
  fruitingFactor,
  incubationFactor,
  spawnFactor,
  spawnRateFactor,
  doseFactor,
];

/** A free column as a factor. */
export const freeFactor = (header: string): Factor => ({
  key: `factor:${header}`,
  label: header,
  unit: "",
  level: (tray) => (Object.hasOwn(tray.factors, header) ? tray.factors[header] : undefined),
});

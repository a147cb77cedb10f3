import { dateOfDay, dayNumber } from "../src/measures/day-number.ts";
import { type SeededRandom, seededRandom } from "../src/statistics/random/seeded-random.ts";

/** One tray of the simulated year, with its whole life; days are day numbers. */
export interface YearTray {
  trayId: string;
  cook: string;
  position: number;
  jar: string;
  shelf: string;
  doseMillilitres: number;
  inoculated: number;
  /** absent where it was lost before */
  colonised?: number;
  fruiting?: number;
  harvested?: number;
  dried?: number;
  /** day it was seen to be lost */
  lost?: number;
  freshGrams?: number;
  dryGrams?: number;
}

/** A cooker load to be grown: six trays, or as many as there are doses. */
export interface YearLoad {
  cook: string;
  day: number;
  doses: ReadonlyArray<number>;
  /** chance that a tray is lost beyond the usual */
  fault?: number;
}

/** what is true of this grower, and known to nobody who reads the sheets */
export const yearTruth = {
  traysPerLoad: 6,
  lossShare: 0.06,
  summerLossShare: 0.16,
  colonisationDays: 15,
  fruitingDays: 24,
  dryGrams: 30,
  cookShare: 0.1,
  trayShare: 0.14,
  firstDay: "2026-01-08",
  badCook: "C10",
  order: { grams: 700, by: "2026-12-18", askedOn: "2026-09-28" },
} as const;

/** Warm weeks: days are shorter, trays lighter, losses more. */
export const isSummer = (day: number): boolean => {
  const date = dateOfDay(day).slice(5);
  return date >= "07-01" && date < "09-01";
};

/** More liquid culture gives more, by less and less. */
const doseShare = (millilitres: number): number => 1.06 - 0.5 * Math.exp(-millilitres / 3.2);

/** Grows one load. */
export function growLoad({ cook, day, doses, fault = 0 }: YearLoad, random: SeededRandom): YearTray[] {
  const summer = isSummer(day + 20);
  const [ofYield, ofDays] = [1 + yearTruth.cookShare * random.normal(), 1 + 0.05 * random.normal()];
  const share = Math.max(fault, summer ? yearTruth.summerLossShare : yearTruth.lossShare);
  return doses.map((doseMillilitres, index): YearTray => {
    const tray = {
      trayId: `${cook}-${index + 1}`,
      cook,
      position: index + 1,
      jar: `J${cook.slice(1)}`,
      shelf: index < doses.length / 2 ? "upper" : "lower",
      doseMillilitres,
      inoculated: day,
    };
    const slow = (10 - doseMillilitres) * 0.25;
    const colonised =
      day + Math.round((yearTruth.colonisationDays + slow) * (summer ? 0.88 : 1) * (ofDays + 0.05 * random.normal()));
    const fruiting = colonised + 1 + random.integer(2);
    const harvested =
      fruiting + Math.round(yearTruth.fruitingDays * (summer ? 0.88 : 1) * (ofDays + 0.06 * random.normal()));
    const isLost = random.uniform() < share;
    const lostEarly = random.uniform() < 0.7;
    const lostAt = random.uniform();
    const dry =
      yearTruth.dryGrams *
      doseShare(doseMillilitres) *
      (summer ? 0.85 : 1) *
      (ofYield + yearTruth.trayShare * random.normal());
    const ratio = 9 + 0.5 * random.normal();
    if (isLost) {
      const lost = lostEarly ? day + 5 + Math.round(lostAt * 9) : fruiting + 3 + Math.round(lostAt * 12);
      return lostEarly ? { ...tray, lost } : { ...tray, colonised, fruiting, lost };
    }
    const dryGrams = Math.round(Math.max(2, dry) * 10) / 10;
    return {
      ...tray,
      ...{ colonised, fruiting, harvested, dried: harvested + 2, dryGrams },
      freshGrams: Math.round(dryGrams * ratio),
    };
  });
}

/** two loads more, for the order in December */
const extraLoads = ["2026-10-12", "2026-10-19"].map(dayNumber);

/** The loads of the year: two a month, a dose one step higher each time at first, then 8 mL and two doses side by side. */
export function yearLoads(): YearLoad[] {
  const first = dayNumber(yearTruth.firstDay);
  const regular = Array.from(
    { length: 24 },
    (_, index) => first + Math.round((index * 365.25) / 24) - (index % 3 === 1 ? 1 : 0),
  );
  const days = [...regular, ...extraLoads].sort((a, b) => a - b);
  return days.map((day, index): YearLoad => {
    const cook = `C${index + 1}`;
    // a jar of its own went bad in May
    const fault = cook === yearTruth.badCook ? { fault: 0.85 } : {};
    const side = index >= 6 && index % 2 === 0;
    const step = Math.min(8, 3 + index);
    const doses = side ? [6, 10, 10, 6, 6, 10] : Array.from({ length: yearTruth.traysPerLoad }, () => step);
    return { cook, day, doses, ...fault };
  });
}

/** The year's trays. */
export function yearTrays(seed: number): YearTray[] {
  const random = seededRandom(seed);
  return yearLoads().flatMap((load) => growLoad(load, random));
}

/** What is known of a tray on a day: later dates and weights are not there yet. */
export function knownOn(
  tray: YearTray,
  day: number,
): (Omit<YearTray, "lost"> & { outcome: "good" | "contaminated" | "growing" }) | undefined {
  if (tray.inoculated > day) return undefined;
  const { trayId, cook, position, jar, shelf, doseMillilitres, inoculated, lost, freshGrams, dryGrams } = tray;
  const until = (name: "colonised" | "fruiting" | "harvested" | "dried") => {
    const date = tray[name];
    return date === undefined || date > day || (lost !== undefined && date > lost) ? {} : { [name]: date };
  };
  const isPicked = tray.harvested !== undefined && tray.harvested <= day;
  return {
    ...{ trayId, cook, position, jar, shelf, doseMillilitres, inoculated },
    ...until("colonised"),
    ...until("fruiting"),
    ...until("harvested"),
    ...until("dried"),
    ...(isPicked ? { freshGrams: freshGrams! } : {}),
    ...(tray.dried !== undefined && tray.dried <= day ? { dryGrams: dryGrams! } : {}),
    outcome: lost !== undefined && lost <= day ? "contaminated" : isPicked ? "good" : "growing",
  };
}

const header =
  "tray_id,batch,load_position,jar,strain,shelf,inoculum_ml,inoculated_on,colonised_on,fruiting_on,harvested_on,dried_on,outcome,fresh_g,dry_g";

/** The harvest sheet as it stands on a day. */
export function yearSheet(trays: ReadonlyArray<YearTray>, on: number): string {
  const date = (day: number | undefined) => (day === undefined ? "" : dateOfDay(day));
  const rows = trays.flatMap((one) => {
    const tray = knownOn(one, on);
    if (tray === undefined) return [];
    const { trayId, cook, position, jar, shelf, doseMillilitres, inoculated, colonised, fruiting, harvested, dried } =
      tray;
    return [
      [
        ...[trayId, cook, position, jar, "grey oyster", shelf, doseMillilitres],
        ...[date(inoculated), date(colonised), date(fruiting), date(harvested), date(dried)],
        ...[tray.outcome, tray.freshGrams ?? "", tray.dryGrams ?? ""],
      ].join(","),
    ];
  });
  return `${[header, ...rows].join("\n")}\n`;
}

const costs = `item,kind,pack_price,pack_size,pack_unit,amount,amount_unit,per
straw pellets,ingredient,9.8,15,kg,420,g,tray
filter bag,consumable,21,50,each,1,each,tray
malt broth,culture,9.6,500,g,14,g,jar
jar-making time,labour,14,1,hour,0.5,hour,jar
cooker electricity,energy,0.31,1,kWh,3.4,kWh,load
filling and cooking,labour,14,1,hour,1.2,hour,load
picking and weighing,labour,14,1,hour,6,min,good tray
dehydrator electricity,energy,0.31,1,kWh,1.9,kWh,kg fresh
cellar rent,space,35,720,day,1,day,shelf day
`;
const products = `product,form,channel,grams,packaging_cost,minutes,target_margin_pct,current_price,expected_units_month,max_units_month
dried caps 40 g,dried,market stall,40,0.4,3,30 %,14,8,16
fresh box 250 g,fresh,market stall,250,0.3,2,25 %,12,10,20
`;
const settings = `key,value,unit,note
book_title,Cellar oysters,,an invented grower's first year
currency,EUR,,
shelf_places,24,trays,
jar_ml,120,mL,usable culture in one jar
owner_labour_rate,14,per hour,
`;

/** seed of the year that is written, and the day its sheets end */
export const writtenYear = { seed: 26, on: "2026-12-31" } as const;

/** Every file of the first-year book, by its path under data-samples. */
export const firstYearFiles = (): Record<string, string> => ({
  "first-year/harvests/2026.csv": yearSheet(yearTrays(writtenYear.seed), dayNumber(writtenYear.on)),
  "first-year/costs.csv": costs,
  "first-year/products.csv": products,
  "first-year/settings.csv": settings,
});

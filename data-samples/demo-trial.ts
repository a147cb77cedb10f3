import { seededRandom } from "../src/statistics/random/seeded-random.ts";

/**
 * The invented farm behind the demo book: lion's mane on cracked sorghum with soy hulls, one person, four shelves.
 * Every number here is made up; the effects below are what an analysis of the book should find within its intervals.
 */
export const truth = {
  dosesMillilitres: [3, 6, 9, 12],
  /** expected dry grams of a good tray in an average cook with the coarse supplement: ceiling (1 - exp(-rate (dose + head start))) */
  yieldCurve: { ceilingGrams: 36, ratePerMillilitre: 0.18, headStartMillilitres: 4 },
  /** what the fine supplement adds to a good tray, g dry */
  fineGradeGainGrams: 2,
  /** standard deviation between cooks and between trays of one cook, g dry */
  cookSd: 2,
  traySd: 3.2,
  /** expected days to full colonisation: base less slope x dose */
  colonisation: { baseDays: 17, daysPerMillilitre: -0.45, cookSd: 0.5, traySd: 0.9 },
  /** log odds of losing a tray to contamination: base plus slope x dose */
  loss: { baseLogOdds: -3.3, perMillilitre: 0.1 },
  dryingRatio: { mean: 9.4, sd: 0.5 },
} as const;

/** Expected dry grams of a good tray with the coarse supplement in an average cook. */
export function trueYieldGrams(doseMillilitres: number): number {
  const { ceilingGrams, ratePerMillilitre, headStartMillilitres } = truth.yieldCurve;
  return ceilingGrams * (1 - Math.exp(-ratePerMillilitre * (doseMillilitres + headStartMillilitres)));
}

/** One simulated tray, in the units of the tidy sheet. */
export interface DemoTray {
  trayId: string;
  batch: string;
  load: string;
  loadPosition: number;
  jar: string;
  shelf: string;
  supplementGrade: "coarse" | "fine";
  doseMillilitres: number;
  inoculatedOn: string;
  colonisedOn?: string;
  fruitingOn?: string;
  harvestedOn?: string;
  driedOn?: string;
  outcome: "good" | "contaminated" | "growing";
  freshGrams?: number;
  dryGrams?: number;
}

/** The ISO date a number of days after another. */
function addDays(iso: string, days: number): string {
  return new Date(Date.parse(`${iso}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
}

/** How one demo trial is laid out. */
export interface DemoLayout {
  seed: number;
  /** one entry per cook, in order */
  cooks: { name: string; inoculatedOn: string }[];
  traysPerDose: number;
  /** trays harvested after this date are still growing */
  lookedAtOn: string;
  firstTray: number;
  firstJar: number;
}

const round = (value: number, step: number): number => Math.round(value / step) / Math.round(1 / step);

/**
 * Draws a blocked dose trial: every cook holds every dose, half of its trays each supplement grade,
 * two culture jars one after the other, trays in a random order over the load.
 */
export function simulateDemoTrial(layout: DemoLayout): DemoTray[] {
  const random = seededRandom(layout.seed);
  const { colonisation, loss } = truth;
  let trayNumber = layout.firstTray;
  return layout.cooks.flatMap(({ name, inoculatedOn }, cookIndex) => {
    const cookEffect = random.normal() * truth.cookSd;
    const cookDays = random.normal() * colonisation.cookSd;
    const plan = truth.dosesMillilitres.flatMap((doseMillilitres, doseIndex) =>
      Array.from({ length: layout.traysPerDose }, (_, copy) => ({
        doseMillilitres,
        supplementGrade: (copy + doseIndex + cookIndex) % 2 === 0 ? ("coarse" as const) : ("fine" as const),
      })),
    );
    return random.shuffle(plan).map((treatment, place): DemoTray => {
      const base = {
        trayId: `${name}-${String(trayNumber++).padStart(3, "0")}`,
        batch: name,
        load: `L${name.slice(1)}`,
        loadPosition: place + 1,
        // the first jar is used up half-way through the load
        jar: `J${layout.firstJar + 2 * cookIndex + (place < plan.length / 2 ? 0 : 1)}`,
        shelf: `S${(place % 4) + 1}`,
        inoculatedOn,
        ...treatment,
      };
      const expectedDays =
        colonisation.baseDays + colonisation.daysPerMillilitre * treatment.doseMillilitres + cookDays;
      const days = Math.max(5, Math.round(expectedDays + random.normal() * colonisation.traySd));
      const lost =
        random.uniform() < 1 / (1 + Math.exp(-(loss.baseLogOdds + loss.perMillilitre * treatment.doseMillilitres)));
      const gain = treatment.supplementGrade === "fine" ? truth.fineGradeGainGrams : 0;
      const dryGrams = trueYieldGrams(treatment.doseMillilitres) + gain + cookEffect + random.normal() * truth.traySd;
      const ratio = truth.dryingRatio.mean + random.normal() * truth.dryingRatio.sd;
      const fruitingDays = 24 + random.integer(6);
      if (lost) return { ...base, outcome: "contaminated" };
      const colonisedOn = addDays(inoculatedOn, days);
      const seen = colonisedOn <= layout.lookedAtOn ? { colonisedOn, fruitingOn: addDays(colonisedOn, 2) } : {};
      const harvestedOn = addDays(colonisedOn, 2 + fruitingDays);
      if (harvestedOn > layout.lookedAtOn) return { ...base, ...seen, outcome: "growing" };
      return {
        ...base,
        ...seen,
        harvestedOn,
        driedOn: addDays(harvestedOn, 2),
        outcome: "good",
        freshGrams: round(dryGrams * ratio, 1),
        dryGrams: round(dryGrams, 0.1),
      };
    });
  });
}

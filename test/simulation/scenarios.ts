import type { Trial } from "../../src/analysis.ts";
import { type SeededRandom, seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { trialOfTrays } from "../analyses/demo-records.ts";
import { growTrays, type Place, type Truth } from "./grow-trays.ts";
import * as plans from "./trial-plans.ts";

/** A question that can be asked of a book: yield per good or started tray, days, looks after every cook, money, losses. */
export type Read = "good" | "started" | "days" | "looks" | "best dose" | "losses";

/** A kind of trial whose truth is known. */
export interface Scenario {
  name: string;
  /** which questions its trays are asked */
  reads: ReadonlyArray<Read>;
  /** "tell": alarms without an effect are false, intervals must hold the truth; "cannot tell": nothing else is right */
  right: "tell" | "cannot tell";
  truth: Truth;
  doses: ReadonlyArray<number>;
  /** where trays differ in supplement, equally often */
  supplements?: ReadonlyArray<string>;
  /** the dose that earns most lies beyond the doses tried */
  bestAtEdge?: boolean;
  plan(doses: ReadonlyArray<number>, random: SeededRandom): Place[];
}

/** An average cook gives 20 g dry a tray, 15 % scatter between trays, 10 % between cooks; dose does nothing. */
export const nothingHappens: Truth = {
  grams: () => 20,
  days: () => 14,
  loss: () => 0,
  cookSd: 2,
  cookDoseSd: 0,
  jarSd: 0,
  traySd: () => 3,
  driftGrams: 0,
  daysCookSd: 0.7,
  daysTraySd: 1.2,
};

const three = [3, 6, 9];
const gain = (dose: number): number => 14 + dose;
const riskier = (dose: number): number => 0.02 + 0.05 * (dose - 3);

/** Every kind of trial, with the truth behind it. */
export const scenarios: ReadonlyArray<Scenario> = [
  {
    name: "no effect, doses side by side in 6 cooks",
    reads: ["good", "days", "looks"],
    right: "tell",
    doses: three,
    truth: nothingHappens,
    plan: (doses) => plans.blockedInCooks(6, doses, 4),
  },
  {
    name: "no effect, only 3 cooks",
    reads: ["good", "days"],
    right: "tell",
    doses: three,
    truth: nothingHappens,
    plan: (doses) => plans.blockedInCooks(3, doses, 4),
  },
  {
    name: "true gain, doses side by side in 6 cooks",
    reads: ["good", "days", "looks"],
    right: "tell",
    doses: three,
    truth: { ...nothingHappens, grams: gain, days: (dose) => 16 - 0.4 * dose },
    plan: (doses) => plans.blockedInCooks(6, doses, 4),
  },
  {
    name: "one cook per dose",
    reads: ["good", "days", "looks", "best dose"],
    right: "cannot tell",
    doses: three,
    truth: nothingHappens,
    plan: (doses) => plans.wholeCooks(1, doses, 8),
  },
  {
    name: "one jar per dose, one cook",
    reads: ["good", "days", "looks", "best dose"],
    right: "cannot tell",
    doses: three,
    truth: { ...nothingHappens, jarSd: 2 },
    plan: (doses) => plans.jarsPerDose(1, doses, 1, 8),
  },
  {
    name: "one jar per dose, the same in 4 cooks",
    reads: ["good", "days", "looks", "best dose"],
    right: "cannot tell",
    doses: three,
    truth: { ...nothingHappens, jarSd: 2 },
    plan: (doses) => plans.jarsPerDose(4, doses, 1, 6, true),
  },
  {
    name: "jars differ, one jar per dose in each of 5 cooks",
    reads: ["good"],
    right: "tell",
    doses: three,
    truth: { ...nothingHappens, jarSd: 2 },
    plan: (doses) => plans.jarsPerDose(5, doses, 1, 5),
  },
  {
    name: "jars differ a little, one jar per dose in each of 5 cooks",
    reads: ["good"],
    right: "tell",
    doses: three,
    truth: { ...nothingHappens, jarSd: 1 },
    plan: (doses) => plans.jarsPerDose(5, doses, 1, 5),
  },
  {
    name: "jars differ, 4 jars per dose in one cook",
    reads: ["good"],
    right: "tell",
    doses: three,
    // what another cook would give is beyond one cook's book, so its own level is the truth here
    truth: { ...nothingHappens, jarSd: 2, cookSd: 0 },
    plan: (doses) => plans.jarsPerDose(1, doses, 4, 4),
  },
  {
    name: "jars differ, 2 jars per dose in each of 4 cooks",
    reads: ["good"],
    right: "tell",
    doses: three,
    truth: { ...nothingHappens, jarSd: 2 },
    plan: (doses) => plans.jarsPerDose(4, doses, 2, 4),
  },
  {
    name: "jars differ, each jar shared by two of the doses",
    reads: ["good"],
    right: "tell",
    doses: three,
    truth: { ...nothingHappens, jarSd: 2 },
    plan: (doses) => plans.jarsAcrossDoses(4, doses, 4),
  },
  {
    name: "risky dose: more per good tray, the same per started tray",
    reads: ["good", "started"],
    right: "tell",
    doses: three,
    truth: { ...nothingHappens, loss: riskier, grams: (dose) => 17 / (1 - riskier(dose)) },
    plan: (doses) => plans.blockedInCooks(6, doses, 6),
  },
  {
    name: "season drifts, doses drawn at random in each cook",
    reads: ["good"],
    right: "tell",
    doses: three,
    truth: { ...nothingHappens, driftGrams: 1 },
    plan: (doses) => plans.blockedInCooks(6, doses, 4),
  },
  {
    name: "season drifts, whole cooks drawn at random",
    reads: ["good"],
    right: "tell",
    doses: three,
    truth: { ...nothingHappens, driftGrams: 0.5 },
    plan: (doses, random) => plans.wholeCooks(4, doses, 5, random),
  },
  {
    name: "season drifts, dose follows the calendar",
    reads: ["good", "days", "looks", "best dose"],
    right: "cannot tell",
    doses: three,
    truth: { ...nothingHappens, driftGrams: 1 },
    plan: (doses) => plans.wholeCooks(3, doses, 5),
  },
  {
    name: "season drifts, doses creep up two by two",
    reads: ["good"],
    right: "tell",
    doses: three,
    truth: { ...nothingHappens, driftGrams: 1 },
    plan: (doses) => plans.dosesCreepingUp(3, doses, 5),
  },
  {
    name: "gain only with one of two supplements",
    reads: ["good"],
    right: "tell",
    doses: three,
    truth: { ...nothingHappens, grams: (dose, supplement) => (supplement === "bran" ? gain(dose) : 19) },
    supplements: ["bran", "hulls"],
    plan: (doses) => plans.blockedTwoFactors(6, doses, ["bran", "hulls"], 2),
  },
  {
    name: "gain levels off beyond the doses tried",
    reads: ["good", "best dose"],
    right: "tell",
    doses: [3, 6, 9, 12],
    bestAtEdge: true,
    truth: { ...nothingHappens, grams: (dose) => 40 * (1 - Math.exp(-0.08 * (dose + 2))) },
    plan: (doses) => plans.blockedInCooks(6, doses, 4),
  },
  {
    name: "gain with its best among the doses tried",
    reads: ["good", "best dose"],
    right: "tell",
    doses: [3, 6, 9, 12],
    truth: { ...nothingHappens, grams: (dose) => 12 + 4 * dose - 0.25 * dose * dose },
    plan: (doses) => plans.blockedInCooks(6, doses, 4),
  },
  {
    name: "no effect, scatter grows with dose",
    reads: ["good"],
    right: "tell",
    doses: three,
    truth: { ...nothingHappens, traySd: (dose) => dose },
    plan: (doses) => plans.blockedInCooks(5, doses, 5),
  },
  {
    name: "true gain, scatter in proportion to the yield",
    reads: ["good"],
    right: "tell",
    doses: three,
    truth: { ...nothingHappens, grams: (dose) => 6 + 3 * dose, traySd: (dose) => 0.2 * (6 + 3 * dose) },
    plan: (doses) => plans.blockedInCooks(5, doses, 5),
  },
  {
    name: "no effect, a tiny trial of 4 trays a dose",
    reads: ["good"],
    right: "tell",
    doses: three,
    truth: { ...nothingHappens, cookSd: 0 },
    plan: (doses) => plans.blockedInCooks(1, doses, 4),
  },
  {
    name: "no effect, two even doses beside a ragged one",
    reads: ["good"],
    right: "tell",
    doses: three,
    truth: { ...nothingHappens, cookDoseSd: 0.5, traySd: (dose) => (dose === 9 ? 9 : 1.5) },
    plan: (doses) => plans.blockedInCooks(5, doses, 5),
  },
  {
    name: "no effect, uneven numbers and lost trays",
    reads: ["good", "started", "looks", "losses"],
    right: "tell",
    doses: three,
    truth: { ...nothingHappens, loss: () => 0.15 },
    plan: (doses, random) => plans.blockedUnevenly(6, doses, 7, random),
  },
  {
    name: "no effect on average, but it differs from cook to cook",
    reads: ["good", "looks"],
    right: "tell",
    doses: three,
    truth: { ...nothingHappens, cookDoseSd: 2 },
    plan: (doses) => plans.blockedInCooks(6, doses, 4),
  },
  {
    name: "no effect on average, it differs a little, only 3 cooks",
    reads: ["good"],
    right: "tell",
    doses: three,
    truth: { ...nothingHappens, cookDoseSd: 1 },
    plan: (doses) => plans.blockedInCooks(3, doses, 4),
  },
  {
    name: "no effect on average, two doses, it differs, only 3 cooks",
    reads: ["good"],
    right: "tell",
    doses: [3, 9],
    truth: { ...nothingHappens, cookDoseSd: 2 },
    plan: (doses) => plans.blockedInCooks(3, doses, 5),
  },
  {
    name: "no effect, single cook",
    reads: ["good"],
    right: "tell",
    doses: three,
    truth: { ...nothingHappens, cookSd: 0 },
    plan: (doses) => plans.blockedInCooks(1, doses, 6),
  },
];

/** One seeded book of a scenario. */
export function bookOf(scenario: Scenario, seed: number): Trial {
  const random = seededRandom(seed);
  return trialOfTrays(growTrays(scenario.plan(scenario.doses, random), scenario.truth, random));
}

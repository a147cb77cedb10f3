import { doseOf, type Tray } from "../../records/tray.ts";
import { type RobustCentre, robustCentre } from "../plausibility/robust-centre.ts";
import { addFlag } from "./add-flag.ts";
import { logAtCell, type TrayLog } from "./tray-log.ts";
import { setWeightAside } from "./weights-in-reach.ts";

/** A weight this many times the usual one is no good tray, and one this small a part of it no poor one. */
const tooMany = 7;
const tooFew = 1 / 15;
/** Fewer trays have no usual weight. */
const fewest = 4;
/** Robust standard deviations (on the logarithm) that a slip lies away at least. */
const farAway = 4;

const weights = [
  ["freshGrams", "fresh_g", "fresh"],
  ["dryGrams", "dry_g", "dry"],
] as const;

/** The weights of one kind of tray, over all doses and at each. */
interface Usual {
  all: number[];
  doses: Map<number | string, number[]>;
}

/** Trays are compared with those of their strain in their container. */
const kindOf = ({ strain, container }: Tray): string =>
  strain === undefined && container === undefined ? "" : `${strain ?? ""}|${container ?? ""}`;

/** Logarithm of a weight per tray; undefined where it cannot be compared. */
const logOf = (tray: Tray, property: "freshGrams" | "dryGrams"): number | undefined => {
  const grams = tray[property];
  return tray.outcome !== "good" || grams === undefined || grams <= 0 ? undefined : Math.log(grams / tray.traysInPool);
};

/** Whether the weights of some kind of tray reach far enough from end to end to hold a slip. */
function mayHoldSlips(trays: ReadonlyArray<Tray>, property: "freshGrams" | "dryGrams"): boolean {
  const reaches = new Map<string, { least: number; most: number }>();
  for (const tray of trays) {
    const log = logOf(tray, property);
    if (log === undefined) continue;
    const reach = reaches.get(kindOf(tray));
    if (reach === undefined) reaches.set(kindOf(tray), { least: log, most: log });
    else if (log < reach.least) reach.least = log;
    else if (log > reach.most) reach.most = log;
  }
  return [...reaches.values()].some(({ least, most }) => most - least >= Math.log(tooMany));
}

/** Gives the centre that a tray is compared with: of its dose where that has enough trays, else of its kind. */
function centresOf(
  trays: ReadonlyArray<Tray>,
  property: "freshGrams" | "dryGrams",
): (tray: Tray) => RobustCentre | undefined {
  const kinds = new Map<string, Usual>();
  for (const tray of trays) {
    const log = logOf(tray, property);
    if (log === undefined) continue;
    const kind = kindOf(tray);
    const usual = kinds.get(kind) ?? { all: [], doses: new Map<number | string, number[]>() };
    kinds.set(kind, usual);
    usual.all.push(log);
    const dose = usual.doses.get(doseOf(tray));
    if (dose === undefined) usual.doses.set(doseOf(tray), [log]);
    else dose.push(log);
  }
  const known = new Map<number[], RobustCentre | undefined>();
  const centre = (logs: number[]): RobustCentre | undefined => {
    if (logs.length < fewest) return undefined;
    if (!known.has(logs)) known.set(logs, robustCentre(logs));
    return known.get(logs);
  };
  return (tray) => {
    const usual = kinds.get(kindOf(tray));
    return usual && (centre(usual.doses.get(doseOf(tray)) ?? []) ?? centre(usual.all));
  };
}

/**
 * Weights that are a slip rather than a result: many times, or a small part of, what the book's other trays of the kind
 * gave. Such a weight has two readings, so it is set aside and asked about. Changes the trays in place.
 */
export function setSlipsAside(trays: ReadonlyArray<Tray>, log: TrayLog): void {
  for (const [property, field, label] of weights) {
    if (!mayHoldSlips(trays, property)) continue;
    const centreOf = centresOf(trays, property);
    for (const tray of trays) {
      const own = logOf(tray, property);
      const centre = own === undefined ? undefined : centreOf(tray);
      if (own === undefined || centre === undefined) continue;
      const away = own - centre.median;
      if (away < Math.log(tooMany) && away > Math.log(tooFew)) continue;
      if (Math.abs(away) < (farAway * centre.deviation) / 0.6745) continue;
      addFlag(tray, "weight-slip");
      logAtCell(log, tray, field, {
        rule: "weight-slip",
        severity: "error",
        raw: String(tray[property]),
        reason:
          away > 0
            ? `many times the ${label} weight of the book's other trays: a slip of the decimal point, another unit, or several trays weighed together? It is not used`
            : `a small part of the ${label} weight of the book's other trays: a slip of the decimal point, or another unit? It is not used`,
        expected: `${label} weights near ${Math.exp(centre.median).toPrecision(3)} g`,
        action: "Correct the weight, or write its unit beside it; if it is right, state its strain or container",
      });
      setWeightAside(tray, property);
    }
  }
}

import type { Tray } from "../../records/tray.ts";
import { type RobustCentre, robustCentre } from "../plausibility/robust-centre.ts";
import { addFlag } from "./add-flag.ts";
import { logAtRow, type TrayLog } from "./tray-log.ts";
import { setWeightAside } from "./weights-in-reach.ts";

/** A weight this many times the usual one is no good tray, and one this small a part of it no poor one. */
const tooMany = 7;
const tooFew = 1 / 15;
/** Fewer trays have no usual weight. */
const fewest = 5;
/** Robust standard deviations (on the logarithm) that a slip lies away at least. */
const farAway = 4;

const weights = [
  ["freshGrams", "fresh_g", "fresh"],
  ["dryGrams", "dry_g", "dry"],
] as const;

/** Trays are compared with those of their strain in their container, at their dose where it has enough of them. */
const kindOf = ({ strain = "", container = "" }: Tray): string => `${strain}|${container}`;

/** Logarithm of a weight per tray; undefined where it cannot be compared. */
const logOf = (tray: Tray, property: "freshGrams" | "dryGrams"): number | undefined => {
  const grams = tray[property];
  return tray.outcome !== "good" || grams === undefined || grams <= 0 ? undefined : Math.log(grams / tray.traysInPool);
};

function centresOf(trays: ReadonlyArray<Tray>, property: "freshGrams" | "dryGrams"): ReadonlyMap<string, RobustCentre> {
  const groups = new Map<string, number[]>();
  for (const tray of trays) {
    const log = logOf(tray, property);
    if (log === undefined) continue;
    const kind = kindOf(tray);
    for (const key of [kind, `${kind}|${tray.inoculumMillilitres ?? ""}`]) {
      const group = groups.get(key);
      if (group === undefined) groups.set(key, [log]);
      else group.push(log);
    }
  }
  return new Map(
    [...groups].flatMap(([key, logs]) => (logs.length < fewest ? [] : [[key, robustCentre(logs)!] as const])),
  );
}

/**
 * Weights that are a slip rather than a result: many times, or a small part of, what the book's other trays of the kind
 * gave. Such a weight has two readings, so it is set aside and asked about. Changes the trays in place.
 */
export function setSlipsAside(trays: ReadonlyArray<Tray>, log: TrayLog): void {
  for (const [property, field, label] of weights) {
    const centres = centresOf(trays, property);
    if (centres.size === 0) continue;
    for (const tray of trays) {
      const own = logOf(tray, property);
      if (own === undefined) continue;
      const kind = kindOf(tray);
      const centre = centres.get(`${kind}|${tray.inoculumMillilitres ?? ""}`) ?? centres.get(kind);
      if (centre === undefined) continue;
      const away = own - centre.median;
      if (away < Math.log(tooMany) && away > Math.log(tooFew)) continue;
      if (Math.abs(away) < (farAway * centre.deviation) / 0.6745) continue;
      addFlag(tray, "weight-slip");
      logAtRow(log, tray.trayId, tray.sources[0]!, field, {
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

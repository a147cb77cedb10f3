import type { Tray } from "../../records/tray.ts";
import { weights } from "../../records/tray-property.ts";
import type { RobustCentre } from "../plausibility/robust-centre.ts";
import { centresByGroup, groupsWithin, type TrayGroups } from "../plausibility/tray-groups.ts";
import type { WeighedTrays } from "../plausibility/weighed-trays.ts";
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

/** Whether the weights of some kind of tray reach far enough from end to end to hold a slip. */
function mayHoldSlips(logs: Float64Array, { keys, places }: TrayGroups<string>): boolean {
  const least = new Float64Array(keys.length).fill(Number.POSITIVE_INFINITY);
  const most = new Float64Array(keys.length).fill(Number.NEGATIVE_INFINITY);
  for (let at = 0; at < logs.length; at++) {
    const log = logs[at]!;
    const kind = places[at]!;
    if (log < least[kind]!) least[kind] = log;
    if (log > most[kind]!) most[kind] = log;
  }
  return keys.some((_, kind) => most[kind]! - least[kind]! >= Math.log(tooMany));
}

/** Gives the centre that the tray at a place is compared with: of its dose where that has enough trays, else of its kind. */
function centresOf(
  logs: Float64Array,
  kinds: TrayGroups<string>,
  doses: TrayGroups<unknown>,
): (at: number) => RobustCentre | undefined {
  const ofDoses = centresByGroup(logs, doses, fewest);
  const ofKinds = ofDoses.includes(undefined) ? centresByGroup(logs, kinds, fewest) : [];
  return (at) => ofDoses[doses.places[at]!] ?? ofKinds[kinds.places[at]!];
}

/**
 * Weights that are a slip rather than a result: many times, or a small part of, what the book's other trays of the kind
 * gave. Such a weight has two readings, so it is set aside and asked about. Changes the trays and their logarithms in place.
 */
export function setSlipsAside(
  trays: ReadonlyArray<Tray>,
  { logs: all, byDose, byKind }: WeighedTrays,
  log: TrayLog,
): void {
  let doses: TrayGroups<unknown> | undefined;
  for (const [property, field, label] of weights) {
    const logs = all[property];
    if (!mayHoldSlips(logs, byKind)) continue;
    doses ??= groupsWithin(byKind, byDose);
    const centreOf = centresOf(logs, byKind, doses);
    for (let at = 0; at < logs.length; at++) {
      const centre = Number.isNaN(logs[at]!) ? undefined : centreOf(at);
      if (centre === undefined) continue;
      const away = logs[at]! - centre.median;
      if (away < Math.log(tooMany) && away > Math.log(tooFew)) continue;
      if (Math.abs(away) < (farAway * centre.deviation) / 0.6745) continue;
      const tray = trays[at]!;
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
      logs[at] = Number.NaN;
    }
  }
}

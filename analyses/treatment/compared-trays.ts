import type { Excluded } from "../../src/analysis.ts";
import type { ComparedTray } from "../../src/decisions/verdict/index.ts";
import type { Factor } from "../../src/design/factor.ts";
import { dayNumber } from "../../src/measures/day-number.ts";
import type { Tray } from "../../src/records/tray.ts";
import { isLost, type TrayResponse } from "../comparison/tray-response.ts";

/** The trays of a comparison as the verdict rules see them. */
export interface GatheredTrays {
  trays: ComparedTray[];
  /** the tray of each row number among `trays` */
  trayOf: ReadonlyMap<number, Tray>;
  excluded: Excluded[];
}

/** What a tray shared with others. One name is one thing in the whole book, but for a load: it belongs to its cook. */
function unitsOf(tray: Tray): Record<string, string> {
  return {
    ...(tray.jar === undefined ? {} : { jar: tray.jar }),
    ...(tray.shelf === undefined ? {} : { shelf: tray.shelf }),
    ...(tray.chamber === undefined ? {} : { chamber: tray.chamber }),
    ...(tray.load === undefined ? {} : { load: `${tray.batch ?? ""}, ${tray.load}` }),
  };
}

/** Why a tray says nothing about a thing and a response; undefined where it does. */
function whyLeftOut(
  tray: Tray,
  level: number | string | undefined,
  value: number | undefined,
  thing: Factor,
  response: TrayResponse,
  keepLost: boolean,
): string | undefined {
  if (tray.outcome === "growing" && value === undefined) return "still growing, so no result yet";
  if (tray.outcome === "asked") return "asked about in the log, so what became of it is not known";
  if (level === undefined) return `${thing.label.toLowerCase()} not recorded or not readable`;
  if (value !== undefined) return undefined;
  if (!isLost(tray)) return `no ${response.label} recorded`;
  return keepLost ? undefined : `lost, so no ${response.label}`;
}

/**
 * Gathers the finished trays on which a thing that varied is written, and says why the others do not count.
 * @param thing what varied; amounts become numbers, names stay names
 * @param response the result of a good tray; lost trays count as lost
 * @param keepLost whether lost trays belong to the comparison (as losses); days know none
 */
export function gatherTrays(
  trays: ReadonlyArray<Tray>,
  thing: Factor,
  response: TrayResponse,
  keepLost = true,
): GatheredTrays {
  const compared: ComparedTray[] = [];
  const trayOf = new Map<number, Tray>();
  const reasons = new Map<string, string[]>();
  for (const [row, tray] of trays.entries()) {
    const level = thing.value === undefined ? thing.level(tray) : thing.value(tray);
    const value = response.of(tray);
    const reason = whyLeftOut(tray, level, value, thing, response, keepLost);
    if (reason !== undefined || level === undefined) {
      const names = reasons.get(reason!) ?? [];
      reasons.set(reason!, names);
      names.push(tray.trayId);
      continue;
    }
    const day = tray.inoculatedOn === undefined ? undefined : dayNumber(tray.inoculatedOn);
    trayOf.set(row, tray);
    compared.push({
      level,
      row,
      value: value ?? "lost",
      units: unitsOf(tray),
      ...(tray.batch === undefined ? {} : { cook: tray.batch }),
      ...(day === undefined ? {} : { day }),
      ...(tray.traysInPool === 1 ? {} : { pooled: tray.traysInPool }),
    });
  }
  return { trays: compared, trayOf, excluded: [...reasons].map(([reason, names]) => ({ trays: names, reason })) };
}

import type { Issue } from "../../records/issue.ts";
import { addFlag } from "./add-flag.ts";
import type { TrayDraft } from "./tray-draft.ts";
import { logAtCell, type TrayLog } from "./tray-log.ts";
import { heaviestFlush } from "./weight-places.ts";

/**
 * What one tray can give, in g: from the least a scale shows to more than the largest blocks yield over all flushes.
 * Common practice, no source.
 */
const reach = {
  fresh_g: { least: 0.5, most: 5000 },
  dry_g: { least: 0.05, most: 600 },
} as const;

const weights = [
  ["freshGrams", "fresh_g"],
  ["dryGrams", "dry_g"],
] as const;

/** Takes a weight out of a tray and its flushes; what was typed stays in the log. */
export function setWeightAside(
  tray: Pick<TrayDraft, "flushes" | "freshGrams" | "dryGrams">,
  property: "freshGrams" | "dryGrams",
): void {
  tray[property] = undefined;
  tray.flushes = tray.flushes.flatMap(({ [property]: _aside, ...flush }) =>
    Object.keys(flush).length > 1 ? [flush] : [],
  );
}

function say(
  draft: TrayDraft,
  field: "fresh_g" | "dry_g",
  entry: Pick<Issue, "raw" | "rule" | "reason">,
  log: TrayLog,
  flush?: number,
): void {
  const { file, column } = log.placeOf(draft, field, flush);
  addFlag(draft, entry.rule);
  const action = `Correct the weight; if the whole column is in another unit, add the line ${file},${column},${field},g (or the unit) to columns.csv`;
  logAtCell(
    log,
    draft,
    field,
    { ...entry, severity: "error", expected: "the weight of one tray, such as 310 g", action },
    flush,
  );
}

const isWithin = ({ least, most }: { least: number; most: number }, grams: number | undefined): grams is number =>
  grams !== undefined && grams >= least && grams <= most;

function dropOutOfReach(draft: TrayDraft, log: TrayLog): boolean {
  let dropped = false;
  for (const [property, field] of weights) {
    const { least, most } = reach[field];
    // where another flush has no weight the tray has no total, and the heaviest flush is judged by itself
    const heaviest = heaviestFlush(draft.flushes, property);
    const grams = draft[property] ?? heaviest?.[property];
    if (grams === undefined || grams === 0) continue;
    const perTray = grams / draft.traysInPool;
    if (perTray <= most && perTray >= least) continue;
    const reason =
      perTray > most
        ? "more than one tray can give: another unit, a slip of ten, or several trays weighed together? It is not used"
        : "less than a scale shows of one tray: another unit, or a slip of the decimal point? It is not used";
    say(draft, field, { raw: `${grams} g`, rule: "weight-out-of-reach", reason }, log, heaviest?.number);
    setWeightAside(draft, property);
    const { [field]: _limits, ...bounds } = draft.bounds;
    draft.bounds = bounds;
    dropped = true;
  }
  return dropped;
}

/** Weights of one picking, or of the tray, that cannot both be so. */
function dropImpossiblePair(draft: TrayDraft, log: TrayLog): boolean {
  const { freshGrams, dryGrams, flushes } = draft;
  const total = { freshGrams, dryGrams, number: undefined };
  for (const { freshGrams: fresh, dryGrams: dry, number } of flushes.length > 1 ? [...flushes, total] : [total]) {
    if (fresh === undefined || dry === undefined || dry <= fresh) continue;
    const reason =
      "it weighs more dry than fresh: swapped columns, a wrong unit, or a container on the scale? Neither weight is used";
    say(draft, "dry_g", { raw: `${dry} dry, ${fresh} fresh`, rule: "dry-above-fresh", reason }, log, number);
    for (const [property] of weights) setWeightAside(draft, property);
    return true;
  }
  if (dryGrams === 0 && freshGrams !== undefined && freshGrams > 0) {
    addFlag(draft, "dry-zero");
    logAtCell(log, draft, "dry_g", {
      rule: "dry-zero",
      severity: "warning",
      raw: "0",
      reason: "a dry weight of 0 beside a fresh one: nothing dries away wholly, so it is taken as not weighed",
      expected: "the dry weight, or an empty cell",
      action: "Type the dry weight, or leave the cell empty until it is weighed",
    });
    setWeightAside(draft, "dryGrams");
  }
  return false;
}

/**
 * Sets weights aside that no tray can have. What was typed stays in the log.
 * @returns whether a weight was set aside that shows, wrong as it is, that the tray was picked
 */
export function keepWeightsInReach(draft: TrayDraft, log: TrayLog): boolean {
  const { freshGrams, dryGrams, flushes, traysInPool } = draft;
  if (freshGrams === undefined && dryGrams === undefined && flushes.length === 0) return false;
  // by far the most trays: weighed once, and well within reach
  const isUsual = isWithin(reach.fresh_g, freshGrams) && isWithin(reach.dry_g, dryGrams) && dryGrams <= freshGrams;
  if (isUsual && flushes.length < 2 && traysInPool === 1) return false;
  const impossible = dropImpossiblePair(draft, log);
  return dropOutOfReach(draft, log) || impossible;
}

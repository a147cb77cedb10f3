import type { Issue } from "../../records/issue.ts";
import type { Tray } from "../../records/tray.ts";
import { weights } from "../../records/tray-property.ts";
import { middle } from "../plausibility/robust-centre.ts";
import type { WeighedTrays } from "../plausibility/weighed-trays.ts";
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

/**
 * Fresh over dry of anything that grows: no mushroom holds more than 97 % of water. Common practice, no source. Between such
 * weights a wrong unit is the same for both.
 */
const mostRatio = 33;
const leastRatio = 3;

/** Takes a weight out of a tray and its flushes; what was typed stays in the log. */
export function setWeightAside(
  tray: Pick<Tray, "flushes" | "freshGrams" | "dryGrams">,
  property: "freshGrams" | "dryGrams",
): void {
  tray[property] = undefined;
  tray.flushes = tray.flushes?.flatMap(({ [property]: _aside, ...flush }) =>
    Object.keys(flush).length > 1 ? [flush] : [],
  );
}

function say(
  draft: Tray | TrayDraft,
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

/** Sets aside what stands beside a weight no tray can give, in the same wrong unit by the ratio of the two. */
function dropBeside(draft: TrayDraft, outside: ReadonlyArray<keyof typeof reach>, ratio: number, log: TrayLog): void {
  const [only] = outside;
  // without both totals there is no ratio
  if (outside.length !== 1 || !(ratio >= leastRatio && ratio <= mostRatio)) return;
  const [property, field] = only === "fresh_g" ? weights[1] : weights[0];
  const reason =
    "the weight beside it is out of reach for one tray, and the two fit each other: another unit? It is not used";
  say(draft, field, { raw: `${draft[property]} g`, rule: "weight-out-of-reach", reason }, log);
  setWeightAside(draft, property);
}

function dropOutOfReach(draft: TrayDraft, log: TrayLog): boolean {
  const outside: (keyof typeof reach)[] = [];
  const ratio = (draft.freshGrams ?? 0) / (draft.dryGrams ?? 0);
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
    outside.push(field);
  }
  dropBeside(draft, outside, ratio, log);
  return outside.length > 0;
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

/** Trays with both weights, from which it is seen which of two that do not go together is the odd one. */
const fewestPairs = 3;

/**
 * Sets aside what weighs more fresh than its dry weight allows: the one of the two that is far from those of the book's
 * other trays, where only one is, else both. Changes the trays and their logarithms in place.
 */
export function setWateryAside(trays: ReadonlyArray<Tray>, { logs }: WeighedTrays, log: TrayLog): void {
  const isWatery = ({ freshGrams = 0, dryGrams = 0 }: Tray): boolean =>
    freshGrams > 0 && dryGrams > 0 && freshGrams > mostRatio * dryGrams;
  if (!trays.some(isWatery)) return;
  const others = trays.filter((tray) => (tray.freshGrams ?? 0) > 0 && (tray.dryGrams ?? 0) > 0 && !isWatery(tray));
  const log3 = (tray: Tray, property: "freshGrams" | "dryGrams"): number =>
    Math.log(tray[property]! / tray.traysInPool) / Math.log(3);
  const usual =
    others.length < fewestPairs
      ? undefined
      : weights.map(([property]) => middle(Float64Array.from(others, (tray) => log3(tray, property))));
  for (const [place, tray] of trays.entries()) {
    if (!isWatery(tray)) continue;
    const odd = weights.filter(([property], at) => usual && Math.abs(log3(tray, property) - usual[at]!) > 1);
    const aside = odd.length === 1 ? odd : weights;
    const which = aside.length === 2 ? "Neither weight" : `The ${aside[0]![1] === "fresh_g" ? "fresh" : "dry"} weight`;
    const reason = `fresh it weighs more than ${mostRatio} times what it does dry, which no mushroom can: values under the wrong names, another unit, or dried in part only? ${which} is ${aside.length === 2 ? "" : "not "}used`;
    const raw = `${tray.dryGrams} dry, ${tray.freshGrams} fresh`;
    say(tray, aside.at(-1)![1], { raw, rule: "fresh-over-dry", reason }, log);
    for (const [property] of aside) {
      setWeightAside(tray, property);
      logs[property][place] = Number.NaN;
    }
  }
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

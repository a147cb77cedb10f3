import { levelsOf, mostLevels, type PlacedTray } from "./cell-table.ts";
import { connectedPiece, type Kept, keepTrays, layoutFacts } from "./choose-layout.ts";
import type { ComparedTray } from "./compared-tray.ts";
import { type CookValues, calendarTie, cookValues } from "./cook-values.ts";
import type { Cap, Grouping, LeftOutReason, Method } from "./decision.ts";
import { groupTrays, oneCookAtMost } from "./group-trays.ts";
import { kindsOfOneUnitPerLevel } from "./merge-by-unit.ts";
import { type OtherOf, otherIn, partlyTiedUnit, separable, variesInside, withoutOther } from "./other-factor.ts";

/** Trays that a cook has at least where nothing tells: one load. Common practice, no source. */
const oneLoad = 6;
/** Fewest whole cooks whose trend over many levels is judged. */
const fewestForTrend = 4;

/** How a book's trays are compared. */
export interface LaidOut {
  method: Method;
  grouping: Grouping;
  /** trays that count, lost ones included, in row order */
  trays: PlacedTray[];
  leftOut: { row: number; reason: LeftOutReason }[];
  caps: Cap[];
  insideShare: number;
  /** whether the difference has an interval */
  interval: boolean;
  /** trays of one level, taken as one cook with the others, may be a cook of their own */
  mayBeCooks: boolean;
  /** where whole cooks are compared */
  cooks?: CookValues;
  /** whether the order in time is taken out */
  withOrder: boolean;
  /** what else differs between trays of one group, and is taken out there */
  otherInside?: OtherOf;
  /** the kind of unit that is taken out with it */
  withinUnits?: string;
}

/** What decides the layout besides the trays. */
export interface LayoutChoice {
  /** numbers in order, or names */
  ordered: boolean;
  /** which cook got which level was drawn by lot */
  drawnByLot: boolean;
}

/**
 * Reads the layout of a book: what stands for a cook, whether levels are compared inside cooks, between cooks, in one cook, or
 * not at all, and what that rules out.
 * @param trays in row order
 * @source the project's own rules; their error rates are in test/simulation
 */
export function layOutTrays(trays: ReadonlyArray<ComparedTray>, choice: LayoutChoice): LaidOut {
  const grouped = groupTrays(trays);
  const good = grouped.trays.filter(({ tray }) => tray.value !== "lost");
  const start: LaidOut = {
    method: "means-only",
    grouping: grouped.grouping,
    trays: grouped.trays,
    leftOut: grouped.leftOut,
    caps: [],
    insideShare: 0,
    interval: true,
    mayBeCooks: false,
    withOrder: false,
  };
  const refuse = (reason: Cap["reason"]): LaidOut => ({ ...start, caps: [{ at: "cannot-tell", reason }] });
  if (good.length === 0) return refuse("no-good-trays");
  if (levelsOf(good).length < 2) return refuse("one-level");
  const alone = kindsOfOneUnitPerLevel(grouped.trays.map(({ tray }) => tray));
  const facts = layoutFacts(grouped.trays, choice.ordered);
  // a cook is mostly one load: there the loads are the cooks
  const areCooks = alone.every((kind) => kind === "load") && facts.groups === levelsOf(good).length && !facts.inside;
  if (alone.length > 0) return refuse(areCooks ? "one-cook-per-level" : "one-unit-per-level");
  const otherOf = otherIn(trays);
  const otherInside = otherOf !== undefined && variesInside(grouped.trays, otherOf) ? otherOf : undefined;
  const laid: LaidOut = {
    ...start,
    insideShare: facts.insideShare,
    ...(otherInside === undefined ? {} : { otherInside }),
  };
  const chosen =
    facts.groups === 1
      ? oneCook(laid, undefined, choice.ordered)
      : facts.inside
        ? inside(laid, facts.several, choice.ordered)
        : whole(laid, facts.several, choice, otherOf);
  return withGroupingCaps(chosen, facts.inside || facts.groups === 1, choice.ordered);
}

/** What the lack of a written cook rules out. */
function withGroupingCaps(laid: LaidOut, levelsInside: boolean, ordered: boolean): LaidOut {
  if (laid.method === "means-only") return laid;
  const { by } = laid.grouping;
  const inRows = laid.method === "one-cook" && followsRows(laid.trays, ordered);
  if (by === "assumed-one-cook") {
    const assumed: Cap = { at: "leaning", reason: "cook-assumed" };
    if (!inRows || !couldBeCooks(laid.trays)) return { ...laid, caps: [...laid.caps, assumed] };
    return { ...laid, mayBeCooks: true, caps: [...laid.caps, { at: "open", reason: "levels-follow-rows" }, assumed] };
  }
  if (by === "day" && inRows && laid.trays.length > oneCookAtMost) {
    return { ...laid, interval: false, caps: [...laid.caps, { at: "open", reason: "levels-follow-rows-of-one-day" }] };
  }
  if (by !== "row-blocks") return laid;
  const notRecorded: Cap = { at: "leaning", reason: "cooks-not-recorded" };
  if (levelsInside) return { ...laid, caps: [...laid.caps, notRecorded] };
  return {
    ...laid,
    interval: false,
    caps: [...laid.caps, notRecorded, { at: "open", reason: "levels-between-row-blocks" }],
  };
}

/** Whether there are more trays than a load takes, and of each level enough to have been a cook of its own. */
function couldBeCooks(trays: ReadonlyArray<PlacedTray>): boolean {
  const counts = new Map<unknown, number>();
  for (const { tray } of trays) counts.set(tray.level, (counts.get(tray.level) ?? 0) + (tray.pooled ?? 1));
  return trays.length > oneLoad && Math.min(...counts.values()) > oneLoad / 2;
}

/** Whether trays stand in the order of their levels: several cooks, for all one knows, where there are more than one has. */
function followsRows(trays: ReadonlyArray<PlacedTray>, ordered: boolean): boolean {
  const good = trays.filter(({ tray }) => tray.value !== "lost");
  const levels = levelsOf(good);
  const position = new Map(levels.map((level, i) => [level, i]));
  const level = good.map(({ tray }) => position.get(tray.level)!);
  return calendarTie({ levels, level, order: good.map((_, i) => i + 1) }, ordered) === "same";
}

/** Compares inside one cook: the only one, or the only one with several levels; units that levels went with in part are taken out. */
function oneCook(laid: LaidOut, group: number | undefined, ordered: boolean): LaidOut {
  const own = keepTrays(laid.trays, (tray) => group === undefined || tray.group === group, "cook-with-one-level");
  const { otherInside } = laid;
  const units = partlyTiedUnit(own.kept, ordered);
  const both: OtherOf | undefined =
    units && ((tray) => (otherInside === undefined ? "" : `${otherInside(tray)}, `) + units.unitOf(tray));
  const withUnits = apartFromOther(own.kept, both);
  const isWithin = both !== undefined && withUnits.kept.length > 0;
  const apart = isWithin ? withUnits : apartFromOther(own.kept, otherInside);
  if (apart.kept.length === 0) return tied(laid);
  return {
    ...laid,
    ...(isWithin ? { otherInside: both, withinUnits: units!.kind } : {}),
    method: "one-cook",
    trays: apart.kept,
    leftOut: [...laid.leftOut, ...own.leftOut, ...apart.leftOut],
    caps: [{ at: "leaning", reason: "one-cook" }],
  };
}

/** Compares inside the cooks that have several levels. */
function inside(laid: LaidOut, several: ReadonlySet<number>, ordered: boolean): LaidOut {
  const blocks = keepTrays(laid.trays, ({ group }) => several.has(group), "cook-with-one-level");
  const apart = apartFromOther(blocks.kept, laid.otherInside);
  if (apart.kept.length === 0) return tied(laid);
  // a number with many values is judged by its trend, which needs no value to stand in two cooks
  const manyAmounts = ordered && levelsOf(apart.kept).length > mostLevels;
  const piece = manyAmounts ? { kept: apart.kept, leftOut: [] } : connectedPiece(apart.kept);
  const leftOut = [...laid.leftOut, ...blocks.leftOut, ...apart.leftOut, ...piece.leftOut];
  const left = { ...laid, leftOut, trays: piece.kept };
  const groups = new Set(piece.kept.map(({ group }) => group));
  return groups.size === 1 ? oneCook(left, undefined, ordered) : { ...left, method: "inside-cooks" };
}

function apartFromOther(trays: ReadonlyArray<PlacedTray>, otherInside: OtherOf | undefined): Kept {
  return otherInside === undefined ? { kept: [...trays], leftOut: [] } : separable(trays, otherInside);
}

function tied(laid: LaidOut): LaidOut {
  return { ...laid, caps: [{ at: "cannot-tell", reason: "tied-to-the-other-factor" }] };
}

const calendarReason = {
  day: "calendar",
  "cook-number": "calendar-by-cook-number",
  row: "calendar-by-row-order",
} as const;

/** Compares whole cooks; where these say nothing, what little lies inside cooks. */
function whole(
  laid: LaidOut,
  several: ReadonlySet<number>,
  choice: LayoutChoice,
  otherOf: OtherOf | undefined,
): LaidOut {
  const good = laid.trays.filter(({ tray }) => tray.value !== "lost");
  const { otherInside } = laid;
  const apart = otherInside === undefined ? undefined : withoutOther(laid.trays, otherInside);
  const cooks = cookValues(
    laid.trays,
    levelsOf(good),
    laid.grouping.groups,
    choice.ordered,
    otherInside === undefined ? otherOf : undefined,
    apart === undefined ? undefined : ({ tray }) => apart.get(tray.row)!,
  );
  const levelCount = cooks.levels.length;
  const cookCount = cooks.value.length;
  const tooFew = levelCount > mostLevels ? cookCount < fewestForTrend : cookCount <= levelCount;
  const tie = choice.drawnByLot ? "none" : calendarTie(cooks, choice.ordered);
  if (levelCount < 2 || tooFew || tie === "same") {
    if (several.size >= 2) return inside(laid, several, choice.ordered);
    if (several.size === 1) return oneCook(laid, [...several][0], choice.ordered);
    const calendar = !tooFew && levelCount >= 2;
    const order = laid.grouping.by === "row-blocks" ? "row" : cooks.orderedBy;
    const reason = calendar ? calendarReason[order] : "one-cook-per-level";
    return { ...laid, caps: [{ at: "cannot-tell", reason }] };
  }
  return {
    ...laid,
    method: "whole-cooks",
    trays: cooks.kept,
    leftOut: [...laid.leftOut, ...cooks.leftOut],
    caps: cooks.orderedBy === "day" || choice.drawnByLot ? [] : [{ at: "leaning", reason: "cooks-undated" }],
    cooks,
    withOrder: tie === "some",
  };
}

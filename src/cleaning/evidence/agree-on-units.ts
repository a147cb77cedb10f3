import type { ColumnPlan } from "../columns/column-plan.ts";
import type { QuantityEvidence, TableEvidence } from "./table-evidence.ts";
import { massUnits } from "./unit-factors.ts";

/** A share of a column's cells that counts as nearly all of them. */
const nearlyAll = 0.9;

/** How a column's bare numbers came to be read, for the log. */
export interface UnitAgreed {
  plan: ColumnPlan;
  unit: string;
  reason: string;
  /** the key in settings.csv that would say otherwise */
  setting: string;
}

function agree(plan: ColumnPlan, unit: string, reason: string, setting: string, agreed: UnitAgreed[]): void {
  plan.conventions.bareUnit = unit;
  plan.conventions.bareUnitReason = reason;
  agreed.push({ plan, unit, reason, setting });
}

const possibleUnits = ({ bare, likely }: QuantityEvidence): string[] =>
  massUnits.filter((unit) => (likely.get(unit) ?? 0) >= nearlyAll * bare);

/** The possible units of fresh and dry weights that leave a possible drying ratio between them. */
function byDryingRatio(
  freshUnits: string[],
  dryUnits: string[],
  { ratios, ratioRows }: TableEvidence,
): [string[], string[]] {
  const pairs = freshUnits.flatMap((fresh) =>
    dryUnits
      .filter((dry) => (ratios.get(`${fresh}/${dry}`) ?? 0) >= nearlyAll * ratioRows)
      .map((dry) => [fresh, dry] as const),
  );
  if (pairs.length === 0) return [freshUnits, dryUnits];
  return [
    freshUnits.filter((unit) => pairs.some(([fresh]) => fresh === unit)),
    dryUnits.filter((unit) => pairs.some(([, dry]) => dry === unit)),
  ];
}

function agreeOnMass(plans: ReadonlyArray<ColumnPlan>, evidence: TableEvidence, agreed: UnitAgreed[]): void {
  const columns = plans.filter(({ kind }) => kind === "mass");
  const open = new Map<ColumnPlan, string[]>();
  for (const plan of columns) {
    const column = evidence.quantities.get(plan.index)!;
    if (plan.conventions.bareUnit === "" && column.bare > 0) open.set(plan, possibleUnits(column));
  }
  const unitsOf = (plan: ColumnPlan): string[] => open.get(plan) ?? [plan.conventions.bareUnit];
  const [fresh, dry] = ["fresh_g", "dry_g"].map((field) =>
    columns.find((plan) => plan.field === field && plan.flush === undefined),
  );
  const narrowed = new Set<ColumnPlan>();
  if (fresh !== undefined && dry !== undefined) {
    const [freshLeft, dryLeft] = byDryingRatio(unitsOf(fresh), unitsOf(dry), evidence);
    for (const [plan, left] of [
      [fresh, freshLeft],
      [dry, dryLeft],
    ] as const) {
      const before = open.get(plan);
      if (before === undefined) continue;
      if (left.length < before.length) narrowed.add(plan);
      open.set(plan, left);
    }
  }
  for (const [plan, [unit, ...others]] of open) {
    if (unit === undefined || others.length > 0) continue;
    const reason = narrowed.has(plan)
      ? "any other unit would make the drying ratio impossible"
      : "in any other unit most of them would be out of reach for one tray";
    agree(plan, unit, reason, "mass_unit", agreed);
    open.delete(plan);
  }
  for (const [plan, units] of open) {
    const stated = [...evidence.quantities.get(plan.index)!.units.keys()];
    if (stated.length !== 1 || !units.includes(stated[0]!)) continue;
    agree(plan, stated[0]!, "every cell of the column that states a unit states this one", "mass_unit", agreed);
    open.delete(plan);
  }
  const settled = columns.filter((plan) => !open.has(plan));
  for (const [plan, units] of open) {
    const flushes = unitsElsewhere(
      settled.filter(({ field }) => field === plan.field),
      evidence,
    );
    const [only, ...others] = flushes.length === 1 ? flushes : unitsElsewhere(settled, evidence);
    if (only === undefined || others.length > 0 || !units.includes(only)) continue;
    const reason = flushes.length === 1 ? "the other flushes are in it" : "every other weight in the sheet is in it";
    agree(plan, only, reason, "mass_unit", agreed);
  }
}

/** The units that bare numbers of other columns have; where none are bare, those their cells state. */
function unitsElsewhere(plans: ReadonlyArray<ColumnPlan>, { quantities }: TableEvidence): string[] {
  const bare = plans.filter(({ index }) => quantities.get(index)!.bare > 0);
  return [
    ...new Set(
      bare.length > 0
        ? bare.map(({ conventions }) => conventions.bareUnit)
        : plans.flatMap(({ index }) => [...quantities.get(index)!.units.keys()]),
    ),
  ];
}

function agreeOnVolume(plan: ColumnPlan, evidence: QuantityEvidence, agreed: UnitAgreed[]): void {
  if (evidence.bare === 0 || (evidence.likely.get("mL") ?? 0) < nearlyAll * evidence.bare) return;
  const stated = [...evidence.units.keys()];
  if (stated.length > 0 && !stated.includes("mL")) return;
  const reason =
    stated.length > 0
      ? "the cells of the column that state a unit state it"
      : "liquid culture is measured in mL, and the amounts fit";
  agree(plan, "mL", reason, "volume_unit", agreed);
}

function agreeOnTemperature(plan: ColumnPlan, { scales }: QuantityEvidence, agreed: UnitAgreed[]): void {
  const { C, F } = scales;
  if (C > 0 && F > 0) plan.mixedTemperatures = true;
  else if (F > 0) agree(plan, "°F", "as °C they would cook the mushrooms", "temperature_unit", agreed);
  else if (C > 0) agree(plan, "°C", "as °F they would be frost", "temperature_unit", agreed);
}

/**
 * The unit of numbers typed without one, for every column of which neither its header nor the settings say it: what its
 * cells leave possible, where that is one. Where several stay possible the column stays open.
 * @returns what was concluded from cells, for the log
 */
export function agreeOnUnits(plans: ReadonlyArray<ColumnPlan>, evidence: TableEvidence): UnitAgreed[] {
  const agreed: UnitAgreed[] = [];
  agreeOnMass(plans, evidence, agreed);
  for (const plan of plans) {
    const { conventions, kind } = plan;
    if (conventions.bareUnit !== "") continue;
    const column = evidence.quantities.get(plan.index)!;
    if (kind === "volume") agreeOnVolume(plan, column, agreed);
    else if (kind === "temperature") agreeOnTemperature(plan, column, agreed);
    else if (kind === "percent" && conventions.percentStyle === "" && column.bare > 0) {
      const [style, unit, reason] =
        column.aboveOne > 0
          ? (["percent", "%", "some are above 1"] as const)
          : (["fraction", "shares of one", "as percentages they would be drier than anything dried in air"] as const);
      conventions.percentStyle = style;
      agreed.push({ plan, unit, reason, setting: "percent_style" });
    }
  }
  return agreed;
}

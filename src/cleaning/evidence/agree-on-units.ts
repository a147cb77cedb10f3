import type { Settings } from "../../records/setting.ts";
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

function agree(
  plan: ColumnPlan,
  unit: string,
  reason: string,
  setting: string,
  agreed: UnitAgreed[] | undefined,
): void {
  plan.conventions.bareUnit = unit;
  plan.conventions.bareUnitReason = reason;
  agreed?.push({ plan, unit, reason, setting });
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
  if (ratioRows === 0 || pairs.length === 0) return [freshUnits, dryUnits];
  return [
    freshUnits.filter((unit) => pairs.some(([fresh]) => fresh === unit)),
    dryUnits.filter((unit) => pairs.some(([, dry]) => dry === unit)),
  ];
}

function agreeOnMass(
  plans: ReadonlyArray<ColumnPlan>,
  evidence: TableEvidence,
  settings: Settings,
  agreed: UnitAgreed[],
): void {
  const columns = plans.filter(({ kind, index }) => kind === "mass" && evidence.quantities.has(index));
  const open = new Map<ColumnPlan, string[]>();
  for (const plan of columns) {
    if (plan.conventions.bareUnit !== "") continue;
    if (settings.massUnit !== "") agree(plan, settings.massUnit, "settings.csv says so", "mass_unit", undefined);
    else if (evidence.quantities.get(plan.index)!.bare > 0)
      open.set(plan, possibleUnits(evidence.quantities.get(plan.index)!));
  }
  const unitsOf = (plan: ColumnPlan | undefined): string[] | undefined =>
    plan === undefined
      ? undefined
      : (open.get(plan) ?? (plan.conventions.bareUnit === "" ? undefined : [plan.conventions.bareUnit]));
  const single = (field: string) => {
    const found = columns.filter((plan) => plan.field === field && plan.flush === undefined);
    return found.length === 1 ? found[0] : undefined;
  };
  const [fresh, dry] = [single("fresh_g"), single("dry_g")];
  const [freshUnits, dryUnits] = [unitsOf(fresh), unitsOf(dry)];
  const narrowed = new Set<ColumnPlan>();
  if (fresh !== undefined && dry !== undefined && freshUnits !== undefined && dryUnits !== undefined) {
    const [freshLeft, dryLeft] = byDryingRatio(freshUnits, dryUnits, evidence);
    for (const [plan, before, left] of [
      [fresh, freshUnits, freshLeft],
      [dry, dryUnits, dryLeft],
    ] as const) {
      if (!open.has(plan)) continue;
      open.set(plan, left);
      if (left.length < before.length) narrowed.add(plan);
    }
  }
  for (const [plan, units] of open) {
    const unit = units[0];
    if (units.length !== 1 || unit === undefined) continue;
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
  const elsewhere = new Set(
    columns.filter((plan) => !open.has(plan)).flatMap((plan) => unitsElsewhere(plan, evidence)),
  );
  const [only] = elsewhere;
  if (elsewhere.size !== 1 || only === undefined) return;
  for (const [plan, units] of open) {
    if (units.includes(only)) agree(plan, only, "every other weight in the sheet is in it", "mass_unit", agreed);
  }
}

const unitsElsewhere = ({ index, conventions }: ColumnPlan, { quantities }: TableEvidence): string[] => {
  const { units, bare } = quantities.get(index)!;
  return [...units.keys(), ...(bare > 0 && conventions.bareUnit !== "" ? [conventions.bareUnit] : [])];
};

function agreeOnVolume(plan: ColumnPlan, evidence: QuantityEvidence, settings: Settings, agreed: UnitAgreed[]): void {
  if (settings.volumeUnit !== "") {
    agree(plan, settings.volumeUnit, "settings.csv says so", "volume_unit", undefined);
    return;
  }
  if (evidence.bare === 0 || (evidence.likely.get("mL") ?? 0) < nearlyAll * evidence.bare) return;
  const stated = [...evidence.units.keys()];
  if (stated.length > 0 && !stated.includes("mL")) return;
  const reason =
    stated.length > 0
      ? "the cells of the column that state a unit state it"
      : "liquid culture is measured in mL, and the amounts fit";
  agree(plan, "mL", reason, "volume_unit", agreed);
}

function agreeOnTemperature(
  plan: ColumnPlan,
  { scales }: QuantityEvidence,
  settings: Settings,
  agreed: UnitAgreed[],
): void {
  if (settings.temperatureUnit !== "") {
    agree(plan, `°${settings.temperatureUnit}`, "settings.csv says so", "temperature_unit", undefined);
    return;
  }
  const { C, F } = scales;
  if (C > 0 && F > 0) plan.mixedTemperatures = true;
  else if (F > 0) agree(plan, "°F", "as °C they would cook the mushrooms", "temperature_unit", agreed);
  else if (C > 0) agree(plan, "°C", "as °F they would be frost", "temperature_unit", agreed);
}

/**
 * The unit of numbers typed without one, for every column that needs it: as its header says, else as the settings say,
 * else as its cells leave only one possible. Where several stay possible the column stays open.
 * @returns what was concluded from cells, for the log
 */
export function agreeOnUnits(
  plans: ReadonlyArray<ColumnPlan>,
  evidence: TableEvidence,
  settings: Settings,
): UnitAgreed[] {
  const agreed: UnitAgreed[] = [];
  agreeOnMass(plans, evidence, settings, agreed);
  for (const plan of plans) {
    const column = evidence.quantities.get(plan.index);
    if (column === undefined || plan.conventions.bareUnit !== "") continue;
    if (plan.kind === "volume") agreeOnVolume(plan, column, settings, agreed);
    else if (plan.kind === "temperature") agreeOnTemperature(plan, column, settings, agreed);
    else if (plan.kind === "percent") {
      plan.conventions.percentStyle = settings.percentStyle;
      if (settings.percentStyle !== "" || column.bare === 0) continue;
      const style = column.aboveOne > 0 ? "percent" : "fraction";
      plan.conventions.percentStyle = style;
      const reason =
        style === "percent" ? "some are above 1" : "as percentages they would be drier than anything dried in air";
      agreed.push({ plan, unit: style === "percent" ? "%" : "shares of one", reason, setting: "percent_style" });
    }
  }
  return agreed;
}

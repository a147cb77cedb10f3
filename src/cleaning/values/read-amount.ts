import { canonicalUnit, toCanonical, type Unit, unitNamed, unitOfAnyKind } from "../../records/words/units.ts";
import type { Change, Conventions, QuantityKind, QuantityReading } from "./quantity-reading.ts";

const term = /^([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+(?![a-z\d]))?)\s*(cm\^?3|[^\d+-]*)/i;

/** What a good cell of each kind looks like. */
export const exampleOf: Readonly<Record<QuantityKind, string>> = {
  mass: "a weight with its unit, such as 310 g",
  volume: "a volume with its unit, such as 10 mL",
  temperature: "a temperature with its unit, such as 18 °C",
  days: "a number of days, such as 12",
  hours: "a number of hours, such as 12",
  length: "a length with its unit, such as 25 mm",
  count: "a whole number, such as 2",
  percent: "a percentage, such as 12 %",
  number: "a plain number, such as 12.5",
};

const settingOf: Partial<Record<QuantityKind, string>> = {
  mass: "mass_unit",
  volume: "volume_unit",
  temperature: "temperature_unit",
  percent: "percent_style",
};

const rivalUnits: Partial<Record<QuantityKind, ReadonlyArray<string>>> = {
  mass: ["g", "oz"],
  volume: ["mL", "fl oz"],
  temperature: ["°C", "°F"],
  length: ["cm", "in"],
};

const unreadable = (kind: QuantityKind, rule: string, reason: string, expected = exampleOf[kind]): QuantityReading => ({
  kind: "unreadable",
  expected,
  changes: [{ rule, reason }],
});

/** How several amounts are typed that belong together. */
export const addedUp = "one weight, or those to be added up with + between them, such as 130 + 60 g";
const severalOf = (kind: QuantityKind): string => (kind === "mass" ? addedUp : exampleOf[kind]);

const value = (kind: QuantityKind, amount: number, changes: Change[]): QuantityReading => ({
  kind: "value",
  value: amount,
  unit: canonicalUnit[kind],
  changes,
});

const inUnit = (amount: number, unitName: string, kind: QuantityKind): number =>
  toCanonical(amount, unitNamed(unitName, kind)!);

/**
 * A number typed without a unit, in the canonical one. What the column agrees on decides; where it agrees on nothing and
 * the kind has rival units, the cell stays ambiguous.
 */
export function readBareNumber(
  amount: number,
  kind: QuantityKind,
  conventions: Readonly<Conventions>,
): QuantityReading {
  const { bareUnit, bareUnitReason, percentStyle } = conventions;
  if (kind === "count" && (amount < 0 || !Number.isInteger(amount))) {
    return unreadable(kind, "not-a-count", "a count is a whole number, 0 or more");
  }
  if (kind === "percent") {
    const style = bareUnit === "%" ? "percent" : percentStyle || (amount > 1 ? "percent" : "");
    if (style === "percent") return value(kind, toCanonical(amount, { factor: 0.01, offset: 0 }), []);
    if (style === "fraction" || amount <= 0) return value(kind, amount, []);
    return {
      kind: "ambiguous",
      candidates: [
        { value: toCanonical(amount, { factor: 0.01, offset: 0 }), as: "percent" },
        { value: amount, as: "share of one" },
      ],
      setting: "percent_style",
      expected: "a percentage with its sign, such as 12.9 %",
      changes: [{ rule: "bare-share", reason: "no % sign, and 1 or less: a percentage or a share of one" }],
    };
  }
  const rivals = rivalUnits[kind];
  const unit = bareUnit === canonicalUnit[kind] ? undefined : unitNamed(bareUnit, kind);
  if (unit !== undefined) {
    if (unit.sizedBy !== undefined && amount !== 0) return readWithUnit(amount, unit, kind, conventions);
    return value(kind, toCanonical(amount, unit), [
      { rule: "unit-of-column", reason: `read as ${bareUnit}: ${bareUnitReason}` },
    ]);
  }
  if (rivals === undefined || bareUnit === canonicalUnit[kind]) return value(kind, amount, []);
  if (amount === 0 && kind !== "temperature") return value(kind, 0, []);
  const setting = settingOf[kind];
  return {
    kind: "ambiguous",
    candidates: rivals.map((unit) => ({ value: inUnit(amount, unit, kind), as: unit })),
    setting: setting ?? "",
    expected: exampleOf[kind],
    changes: [{ rule: "bare-number", reason: `no unit: ${rivals.join(" or ")}, and nothing in the column decides` }],
  };
}

function readWithUnit(
  amount: number,
  unit: Unit,
  kind: QuantityKind,
  { cupMillilitres, syringeMillilitres }: Readonly<Conventions>,
): QuantityReading {
  if (unit.sizedBy === undefined) {
    const reason = `the cell says ${unit.name}`;
    if (unit.rough !== true) return value(kind, toCanonical(amount, unit), [{ rule: "unit-in-cell", reason }]);
    return {
      kind: "approximate",
      value: toCanonical(amount, unit),
      unit: canonicalUnit[kind],
      changes: [{ rule: "rough-unit", reason: `${reason}, which have no one length` }],
    };
  }
  const size = unit.sizedBy === "cup" ? cupMillilitres : syringeMillilitres;
  if (size > 0) {
    const changes = [{ rule: "unit-in-cell", reason: `the cell says ${unit.name}, of ${size} mL by the settings` }];
    return value(kind, toCanonical(amount, { factor: size, offset: 0 }), changes);
  }
  return {
    kind: "ambiguous",
    candidates: [],
    setting: "syringe_ml",
    expected: exampleOf.volume,
    changes: [{ rule: "syringe-size", reason: "a syringe has no one size, and the settings state none" }],
  };
}

function wrongUnit(found: Unit, kind: QuantityKind): QuantityReading {
  const needsDensity = (found.kind === "mass" && kind === "volume") || (found.kind === "volume" && kind === "mass");
  const reason = needsDensity
    ? `${found.name} measures ${found.kind}, the column ${kind}: one does not give the other without a density`
    : `${found.name} does not measure what the column holds`;
  const expected =
    found.name === "oz" && kind === "volume" ? "fl oz if it was a volume, such as 2 fl oz" : exampleOf[kind];
  return unreadable(kind, "wrong-unit", reason, expected);
}

/** No quantity, price or share of a book is nearer to 0 than the first, or further from it than the second. */
const [leastSize, mostSize] = [1e-9, 1e16];

/** Whether a number of this size can be meant. @param typed its digits, which may say more than the number holds: "1e-400" is no 0 */
export function sizeCanBeMeant(amount: number, typed: string): boolean {
  const size = Math.abs(amount);
  return size === 0 ? !/^[^e]*[1-9]/i.test(typed) : size >= leastSize && size <= mostSize;
}

/**
 * A number in plain digits with a decimal point, with or without a unit, or several in falling units ("2 lb 3 oz").
 * @param text what the rules left of the cell
 */
export function readAmount(text: string, kind: QuantityKind, conventions: Readonly<Conventions>): QuantityReading {
  const terms: { amount: number; typed: string; unitText: string }[] = [];
  let rest = text.trim();
  while (rest !== "") {
    const match = term.exec(rest);
    if (match === null || terms.length > 3) return unreadable(kind, "not-a-number", "no number can be read here");
    const unitText = match[2]!.replace(/(?:,|;|&|\band)\s*$/i, "").trim();
    terms.push({ amount: Number(match[1]), typed: match[1]!, unitText });
    rest = rest
      .slice(match[0].length)
      .trim()
      .replace(/^\+\s*/, "");
  }
  const first = terms[0];
  if (text.trimStart().startsWith("+") && conventions.measures === "inoculum_ml")
    return unreadable(kind, "relative-amount", "a plus says how much more, and not than what");
  if (first === undefined) return unreadable(kind, "not-a-number", "no number can be read here");
  const senseless = terms.find(({ amount, typed }) => !sizeCanBeMeant(amount, typed));
  if (senseless !== undefined) {
    const size = Math.abs(senseless.amount) < 1 ? "too near to 0" : "too large";
    return unreadable(kind, "senseless-size", `the number is ${size} for anything that is weighed, counted or paid`);
  }
  const power = /e/i.test(first.typed) ? [{ rule: "scientific-notation", reason: "a number with a power of ten" }] : [];
  const withPower = (reading: QuantityReading): QuantityReading => ({
    ...reading,
    changes: [...power, ...reading.changes],
  });
  if (terms.length === 1) {
    if (first.unitText === "") return withPower(readBareNumber(first.amount, kind, conventions));
    const unit = unitNamed(first.unitText, kind);
    if (unit === undefined) {
      const other = unitOfAnyKind(first.unitText, kind);
      if (other !== undefined) return wrongUnit(other, kind);
      const apart = kind === "mass" || kind === "volume" ? ", and a remark behind a comma" : "";
      return unreadable(kind, "not-a-number", "more than a number and a unit", exampleOf[kind] + apart);
    }
    if (Number.isNaN(unit.factor)) return withPower(readBareNumber(first.amount, kind, conventions));
    return withPower(readWithUnit(first.amount, unit, kind, conventions));
  }
  const units = terms.map(({ unitText }) => unitNamed(unitText, kind));
  let total = 0;
  let before = Number.POSITIVE_INFINITY;
  for (const [index, unit] of units.entries()) {
    const falls = unit !== undefined && unit.offset === 0 && unit.sizedBy === undefined && unit.factor < before;
    const { amount } = terms[index]!;
    if (!falls || amount < 0)
      return unreadable(kind, "not-a-number", "several numbers that do not make one amount", severalOf(kind));
    total += amount * unit.factor;
    before = unit.factor;
  }
  return value(kind, Number(total.toPrecision(14)), [
    { rule: "compound-amount", reason: `added up from ${units.map((unit) => unit!.name).join(" and ")}` },
  ]);
}

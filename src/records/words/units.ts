/** What a number measures; each kind has one canonical unit (see `canonicalUnit`). */
export type QuantityKind =
  | "mass"
  | "volume"
  | "temperature"
  | "days"
  | "hours"
  | "length"
  | "count"
  | "percent"
  | "number";

/** A unit people type, as a straight line to the canonical one: canonical = (typed - offset) x factor. */
export interface Unit {
  name: string;
  kind: QuantityKind;
  factor: number;
  offset: number;
  /** a unit that is not one size everywhere: its factor comes from the settings */
  sizedBy?: "cup" | "syringe";
  /** not one exact size, so what is converted from it is only about right */
  rough?: boolean;
}

/** The unit numbers of a kind are kept in; "" for bare numbers and for shares 0 to 1. */
export const canonicalUnit: Readonly<Record<QuantityKind, string>> = {
  mass: "g",
  volume: "mL",
  temperature: "°C",
  days: "days",
  hours: "hours",
  length: "mm",
  count: "",
  percent: "",
  number: "",
};

export const quantityKinds = Object.keys(canonicalUnit) as ReadonlyArray<QuantityKind>;

const fluidOunce = 29.5735295625;

// Factors: 16 CFR 500.19; exact definitions of NIST Handbook 44, appendix C.
const table: ReadonlyArray<
  readonly [kind: QuantityKind, name: string, factor: number, words: string, offset?: number]
> = [
  ["mass", "g", 1, "g gr gm gms grm grms gram grams gramm gramme grammes gramos grammi gramas gramy gramach gramów"],
  ["mass", "kg", 1000, "kg kgs kilo kilos kilogram kilograms kilogramme"],
  ["mass", "dag", 10, "dag dkg deka dekagramm dekagram"],
  ["mass", "mg", 0.001, "mg milligram milligrams"],
  ["mass", "oz", 28.349523125, "oz ozs ounce ounces onz"],
  ["mass", "lb", 453.59237, "lb lbs pound pounds #"],
  [
    "volume",
    "mL",
    1,
    "ml mls mil mils cc ccm cm3 cm^3 millilitre millilitres milliliter milliliters mililitros mililitry mililitrach millilitri",
  ],
  ["volume", "µL", 0.001, "ul µl μl microlitre microlitres microliter microliters"],
  ["volume", "cL", 10, "cl centilitre centilitres centiliter centiliters"],
  ["volume", "dL", 100, "dl decilitre decilitres deciliter deciliters"],
  ["volume", "L", 1000, "l lt ltr litre litres liter liters"],
  ["volume", "fl oz", fluidOunce, "floz fluidounce fluidounces flozs fluidoz flounce flounces"],
  ["volume", "tbsp", fluidOunce / 2, "tbsp tbsps tbs tablespoon tablespoons"],
  ["volume", "tsp", fluidOunce / 6, "tsp tsps teaspoon teaspoons"],
  ["volume", "pint", fluidOunce * 16, "pt pint pints"],
  ["volume", "quart", fluidOunce * 32, "qt qts quart quarts"],
  ["volume", "gallon", fluidOunce * 128, "gal gals gallon gallons"],
  ["volume", "cup", 1, "cup cups"],
  ["volume", "syringe", 1, "syringe syringes syr spritzen seringues jeringas siringhe spuiten strzykawki seringas"],
  ["temperature", "°C", 1, "c °c degc degreec degreesc celsius degcelsius degreescelsius centigrade grad gradc"],
  ["temperature", "°F", 5 / 9, "f °f degf degreef degreesf fahrenheit degfahrenheit degreesfahrenheit", 32],
  ["temperature", "K", 1, "k kelvin", 273.15],
  ["temperature", "°", Number.NaN, "° deg degs degree degrees"],
  ["days", "days", 1, "d dy day days tag tage jour jours dia dias giorni dagen"],
  ["days", "weeks", 7, "w wk wks week weeks woche wochen semaine semaines semanas settimane weken tygodnie tygodni"],
  ["days", "hours", 1 / 24, "h hr hrs hour hours"],
  ["days", "months", 365.25 / 12, "mo mos mth month months"],
  ["hours", "hours", 1, "h hr hrs hour hours std stunden heures horas"],
  ["hours", "minutes", 1 / 60, "m min mins minute minutes"],
  ["hours", "days", 24, "d day days"],
  ["length", "mm", 1, "mm millimetre millimetres millimeter millimeters"],
  ["length", "cm", 10, "cm centimetre centimetres centimeter centimeters"],
  ["length", "m", 1000, "m metre metres meter meters"],
  ["length", "in", 25.4, 'in ins inch inches "'],
  ["length", "ft", 304.8, "ft foot feet '"],
  ["percent", "%", 0.01, "% pct percent prozent pourcent"],
];

const byKind = new Map<QuantityKind, Map<string, Unit>>();
for (const [kind, name, factor, words, offset = 0] of table) {
  const units = byKind.get(kind) ?? new Map<string, Unit>();
  byKind.set(kind, units);
  const unit: Unit = { name, kind, factor, offset };
  if (name === "cup" || name === "syringe") unit.sizedBy = name;
  if (name === "months") unit.rough = true;
  for (const word of words.split(" ")) units.set(word, unit);
}

const squeeze = (text: string): string =>
  text
    .toLowerCase()
    .replaceAll("³", "3")
    .replaceAll("º", "°")
    .replace(/[\s.]+/g, "");

/**
 * The unit a word stands for among the units of one kind.
 * @param text as typed: "fl. oz", "deg F", "GRAMS"; case, spaces and points do not matter
 * @returns undefined when it is no unit of that kind
 * @example unitNamed("Fl. Oz.", "volume")?.name // "fl oz"
 */
export function unitNamed(text: string, kind: QuantityKind): Unit | undefined {
  return byKind.get(kind)?.get(squeeze(text));
}

/** The kinds that measure something a spreadsheet cell may carry a unit for. */
const kindsWithUnits: ReadonlyArray<QuantityKind> = [
  "mass",
  "volume",
  "temperature",
  "days",
  "hours",
  "length",
  "percent",
];

/** The unit a word stands for in any kind, the asked kind first; undefined when it is no unit at all. */
export function unitOfAnyKind(text: string, first: QuantityKind): Unit | undefined {
  const own = unitNamed(text, first);
  if (own !== undefined) return own;
  for (const kind of kindsWithUnits) {
    const unit = unitNamed(text, kind);
    if (unit !== undefined) return unit;
  }
  return undefined;
}

/**
 * A typed number in the canonical unit. Converted numbers are rounded to 14 significant digits (temperatures to
 * 12), far below any scale's step, so that the same amount typed in two units is the same number.
 * @example toCanonical(71.6, unitNamed("F", "temperature")) // 22
 */
export function toCanonical(value: number, { factor, offset }: Pick<Unit, "factor" | "offset">): number {
  if (factor === 1 && offset === 0) return value;
  if (offset === 0) return Number((value * factor).toPrecision(14));
  const converted = factor === 5 / 9 ? ((value - offset) * 5) / 9 : (value - offset) * factor;
  return Number(converted.toPrecision(12)) + 0;
}

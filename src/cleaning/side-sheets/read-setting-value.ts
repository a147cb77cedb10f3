import type { Issue } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import type { SettingDefinition, Settings } from "../../records/setting.ts";
import { toCanonical, unitNamed } from "../../records/words/units.ts";
import { parseDate } from "../dates/parse-date.ts";
import { parseQuantity } from "../values/parse-quantity.ts";
import {
  type AmbiguousReading,
  type Conventions,
  plainConventions,
  type QuantityKind,
} from "../values/quantity-reading.ts";
import { currencyMark, isCurrencyCode } from "./currency-mark.ts";
import { plainName } from "./match-side-columns.ts";
import { isOfUnit, withoutUnitBehind, withoutUnitWords } from "./setting-units.ts";
import { answersOf } from "./setting-words.ts";

/** One line of a settings sheet. */
export interface StatedSetting {
  row: number;
  key: string;
  value: string;
  unit: string;
  /** the one sheet it holds for; absent for the whole book */
  sheet?: string;
}

/** Kinds of number by the unit a setting is defined in; plain numbers otherwise. */
const kindByUnit: Readonly<Record<string, QuantityKind>> = {
  mL: "volume",
  "°C": "temperature",
  days: "days",
  hours: "hours",
};

/** Decimal marks typed as themselves. */
const marks: Readonly<Record<string, string>> = { ".": "point", ",": "comma" };

interface Trouble {
  rule: string;
  reason: string;
  expected: string;
  setting?: string;
}

/**
 * Reads the value of one setting.
 * @param settings those read so far: the decimal mark and the percent style decide how numbers are read
 * @returns undefined where it cannot be read or is out of range; the reason is then in the issues, and the default stays
 */
export function readSettingValue(
  definition: SettingDefinition,
  { row, value: typed, unit }: StatedSetting,
  settings: Readonly<Settings>,
  file: string,
  issues: Issue[],
): string | number | undefined {
  const about = { file, row, column: "value", raw: typed };
  const isDefault =
    definition.default === "" ? "the setting stays open" : `the default, ${definition.default}, was kept`;
  const refuse = ({ rule, reason, expected, setting }: Trouble): undefined => {
    issues.push(
      logEntry({
        ...about,
        rule,
        severity: "error",
        reason: `${reason}; ${isDefault}`,
        expected,
        action: `Correct ${definition.key}, or empty it${definition.default === "" ? "" : " to keep the default"}`,
        setting: setting ?? definition.key,
      }),
    );
    return undefined;
  };
  const change = (rule: string, reason: string, result: string) => {
    issues.push(logEntry({ ...about, result, rule, severity: "change", reason }));
  };

  switch (definition.kind) {
    case "text":
      return definition.property === "currency"
        ? readCurrency(typed, refuse, change)
        : definition.property === "locale"
          ? readLocale(typed, refuse)
          : typed;
    case "choice":
      return readChoice(definition, typed, refuse, change);
    case "date":
      return readDay(typed, settings, refuse, change);
    default:
      return readNumber(definition, typed, unit, settings, refuse, change);
  }
}

type Refuse = (trouble: Trouble) => undefined;
type Change = (rule: string, reason: string, result: string) => void;

function readChoice(
  { property, choices: defined = [] }: SettingDefinition,
  typed: string,
  refuse: Refuse,
  change: Change,
): string | undefined {
  const choices = answersOf(property, defined);
  const sign = property === "decimalMark" && Object.hasOwn(marks, typed) ? marks[typed] : undefined;
  const answer = sign ?? choices.find(typed)?.answer;
  if (answer === undefined) {
    const expected = `one of: ${choices.answers.join(", ")}`;
    return refuse({ rule: "unknown-answer", reason: "the answer is not one of those to choose from", expected });
  }
  if (plainName(answer) !== plainName(typed)) change("setting-answer", "a word for one of the answers", answer);
  return answer;
}

function readDay(
  typed: string,
  { dateOrder, serialDates }: Readonly<Settings>,
  refuse: Refuse,
  change: Change,
): string | undefined {
  const reading = parseDate(typed, { order: dateOrder, epoch: serialDates });
  if (reading.kind !== "date") {
    const reason = "no date can be read here for certain";
    return refuse({ rule: "not-a-date", reason, expected: "a date such as 2026-03-04" });
  }
  if (reading.iso !== typed) change("date-format", "the date was typed in another form", reading.iso);
  return reading.iso;
}

function readCurrency(typed: string, refuse: Refuse, change: Change): string | undefined {
  const code = typed.toUpperCase();
  if (isCurrencyCode(code)) {
    if (code !== typed) change("currency-code", "the code was written in capitals", code);
    return code;
  }
  const { currencies } = currencyMark(typed);
  const [first] = currencies;
  if (first === undefined || (currencies.length > 1 && typed !== "$")) {
    return refuse({
      rule: "unknown-currency",
      reason: "this is no one currency's code",
      expected: "a three-letter ISO 4217 code such as EUR",
    });
  }
  change("currency-code", "a sign or a name for the currency", first);
  return first;
}

function readLocale(typed: string, refuse: Refuse): string | undefined {
  try {
    const [tag = typed] = Intl.getCanonicalLocales(typed.replaceAll("_", "-"));
    // a well-formed tag of no language would be written as the machine happens to write numbers
    if (Intl.NumberFormat.supportedLocalesOf(tag).length > 0) return tag;
    return refuse({
      rule: "unknown-locale",
      reason: "there is no such language",
      expected: "a language tag such as en-GB",
    });
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return refuse({
      rule: "unknown-locale",
      reason: "this is no language tag",
      expected: "a language tag such as en-GB",
    });
  }
}

/** The range of a number, for messages: "shelf_places, at least 1 trays". */
function rangeText({ key, unit, least, most }: SettingDefinition): string {
  const low = least ?? Number.NEGATIVE_INFINITY;
  const bounds = most === undefined || !Number.isFinite(most) ? `at least ${low}` : `${low} to ${most}`;
  return `${key}, ${bounds}${unit === "" ? "" : ` ${unit}`}`;
}

/** How a setting's number is read. */
function numberConventions(
  definition: SettingDefinition,
  quantityKind: QuantityKind,
  unit: string,
  { decimalMark, percentStyle, cupMillilitres }: Readonly<Settings>,
): Conventions {
  const inUnit = unitNamed(unit, quantityKind);
  return {
    ...plainConventions,
    cupMillilitres,
    decimalMark: decimalMark === "" ? "" : decimalMark === "comma" ? "," : ".",
    bareUnit: quantityKind === "percent" ? "" : (inUnit?.name ?? definition.unit),
    bareUnitReason: inUnit === undefined ? "the setting is kept in it" : "the unit beside it says so",
    // a % in the unit column marks the cell
    percentStyle:
      unit === "%" || /^(?:pct|percent)$/i.test(unit)
        ? "percent"
        : /^(?:fraction|share)/i.test(unit)
          ? "fraction"
          : percentStyle,
  };
}

const wholeNumbers: ReadonlyArray<keyof Settings> = [
  "currencyDecimals",
  "shelfPlaces",
  "traysPerLoad",
  "plannedCooks",
  "firstYear",
  "seed",
];

/** The one reading of a share of which only one is in the setting's range: 0.95 of an interval level can only be 95 %. */
function onlyPossibleShare(
  candidates: AmbiguousReading["candidates"],
  { least, most }: SettingDefinition,
): number | undefined {
  const possible = candidates.filter(
    ({ value }) =>
      value * 100 >= (least ?? Number.NEGATIVE_INFINITY) && value * 100 <= (most ?? Number.POSITIVE_INFINITY),
  );
  return possible.length === 1 ? possible[0]!.value : undefined;
}

function readNumber(
  definition: SettingDefinition,
  typed: string,
  unit: string,
  settings: Readonly<Settings>,
  refuse: Refuse,
  change: Change,
): number | undefined {
  const { kind, property, unit: definedUnit, least, most, key } = definition;
  if (typed.length > 120) {
    return refuse({ rule: "not-a-number", reason: "a text, not a number", expected: `a number for ${key}` });
  }
  const isPercent = kind === "percent";
  const quantityKind = isPercent ? "percent" : (kindByUnit[definedUnit] ?? "number");
  const range = rangeText(definition);
  const money = kind === "money" ? currencyMark(typed) : undefined;
  if (money !== undefined && money.mark !== "" && !money.currencies.includes(settings.currency)) {
    const reason = `this money is not in ${settings.currency}, the book's currency`;
    return refuse({ rule: "two-currencies", reason, expected: range, setting: "currency" });
  }
  if (money !== undefined && !isOfUnit(unit, definedUnit)) {
    const reason = `the unit beside it is not ${definedUnit}`;
    return refuse({ rule: "other-unit", reason, expected: range });
  }
  const amount = money === undefined ? typed : withoutUnitBehind(money.amount, definedUnit);
  const bare = withoutUnitWords(amount, quantityKind, [definedUnit, unit]);
  const reading = parseQuantity(bare, quantityKind, numberConventions(definition, quantityKind, unit, settings));
  const asPercent = (share: number): number => toCanonical(share, { factor: 100, offset: 0 });

  let value = reading.kind === "value" ? reading.value : undefined;
  if (reading.kind === "ambiguous" && isPercent) {
    value = onlyPossibleShare(reading.candidates, definition);
    if (value === undefined) {
      const expected = "a percentage with its sign, such as 12 %";
      const reason = "it could be a percentage or a share of one";
      return refuse({ rule: "bare-share", reason, expected, setting: "percent_style" });
    }
    change("share-or-percent", "only this reading is in the setting's range", `${asPercent(value)} %`);
  }
  const last = reading.changes.at(-1);
  if (value === undefined) {
    const reason = "no number can be read here for certain";
    return refuse({ rule: last?.rule ?? "not-a-number", reason, expected: range });
  }
  const inDefinedUnit = isPercent ? asPercent(value) : value;
  // a default such as 0 for "not stated" may stand outside of what can be stated
  const isDefault = inDefinedUnit === Number(definition.default);
  const isLow = inDefinedUnit < (least ?? Number.NEGATIVE_INFINITY);
  if (!isDefault && (isLow || inDefinedUnit > (most ?? Number.POSITIVE_INFINITY))) {
    return refuse({ rule: "out-of-range", reason: "the value is out of the setting's range", expected: range });
  }
  if (wholeNumbers.includes(property) && !Number.isInteger(value)) {
    return refuse({ rule: "not-a-whole-number", reason: "a whole number is needed", expected: range });
  }
  if (reading.kind === "value" && last !== undefined) {
    change(last.rule, reading.changes.map(({ reason }) => reason).join("; "), `${inDefinedUnit} ${definedUnit}`.trim());
  }
  return value;
}

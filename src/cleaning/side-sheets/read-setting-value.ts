import { sheetIssue } from "../../csv/sheet-issue.ts";
import type { Issue } from "../../records/issue.ts";
import type { SettingDefinition, Settings } from "../../records/setting.ts";
import { toCanonical, unitNamed } from "../../records/words/units.ts";
import { parseDate } from "../dates/parse-date.ts";
import { parseQuantity } from "../values/parse-quantity.ts";
import { type Conventions, plainConventions, type QuantityKind } from "../values/quantity-reading.ts";
import { currencyMark, isCurrencyCode } from "./currency-mark.ts";
import { plainName } from "./match-side-columns.ts";
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
      sheetIssue({
        ...about,
        rule,
        severity: "error",
        reason: `${reason}; ${isDefault}`,
        expected,
        action: `Correct ${definition.key}, or empty it to keep the default`,
        ...(setting === undefined ? {} : { setting }),
      }),
    );
    return undefined;
  };
  const change = (rule: string, reason: string, result: string) => {
    issues.push(sheetIssue({ ...about, result, rule, severity: "change", reason }));
  };

  switch (definition.kind) {
    case "text":
      return definition.property === "currency"
        ? readCurrency(typed, refuse, change)
        : definition.property === "locale"
          ? readLocale(typed, refuse)
          : typed;
    case "choice": {
      const choices = answersOf(definition.property, definition.choices ?? []);
      const sign = definition.property === "decimalMark" ? { ".": "point", ",": "comma" }[typed] : undefined;
      const percent = definition.property === "percentStyle" && typed === "%" ? "percent" : undefined;
      const answer = sign ?? percent ?? choices.find(typed)?.answer;
      if (answer === undefined) {
        return refuse({
          rule: "unknown-answer",
          reason: "the answer is none of those there are",
          expected: `one of: ${choices.answers.join(", ")}`,
        });
      }
      if (plainName(answer) !== plainName(typed)) change("setting-answer", "a word for one of the answers", answer);
      return answer;
    }
    case "date": {
      const reading = parseDate(typed, { order: settings.dateOrder, epoch: settings.serialDates });
      if (reading.kind !== "date") {
        return refuse({
          rule: "not-a-date",
          reason: "no date can be read here for certain",
          expected: "a date such as 2026-03-04",
        });
      }
      if (reading.iso !== typed) change("date-format", "the date was typed in another form", reading.iso);
      return reading.iso;
    }
    default:
      return readNumber(definition, typed, unit, settings, refuse, change);
  }
}

type Refuse = (trouble: Trouble) => undefined;
type Change = (rule: string, reason: string, result: string) => void;

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
    return Intl.getCanonicalLocales(typed.replaceAll("_", "-"))[0] ?? typed;
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return refuse({
      rule: "unknown-locale",
      reason: "this is no language tag",
      expected: "a language tag such as en-GB",
    });
  }
}

function readNumber(
  { kind, property, unit: definedUnit, least, most, key }: SettingDefinition,
  typed: string,
  unit: string,
  { decimalMark, percentStyle, cupMillilitres }: Readonly<Settings>,
  refuse: Refuse,
  change: Change,
): number | undefined {
  if (typed.length > 120) {
    return refuse({ rule: "not-a-number", reason: "a text, not a number", expected: `a number for ${key}` });
  }
  const isPercent = kind === "percent";
  const quantityKind = isPercent ? "percent" : (kindByUnit[definedUnit] ?? "number");
  const low = least ?? Number.NEGATIVE_INFINITY;
  const high = most ?? Number.POSITIVE_INFINITY;
  const range = `${key}, ${Number.isFinite(high) ? `${low} to ${high}` : `at least ${low}`}${definedUnit === "" ? "" : ` ${definedUnit}`}`;
  const inUnit = unitNamed(unit, quantityKind);
  const conventions: Conventions = {
    ...plainConventions,
    cupMillilitres,
    decimalMark: decimalMark === "" ? "" : decimalMark === "comma" ? "," : ".",
    bareUnit: isPercent ? "" : (inUnit?.name ?? definedUnit),
    bareUnitReason: inUnit === undefined ? "the setting is kept in it" : "the unit beside it says so",
    // a % in the unit column marks the cell
    percentStyle:
      unit === "%" || /^(?:pct|percent)$/i.test(unit)
        ? "percent"
        : /^(?:fraction|share)/i.test(unit)
          ? "fraction"
          : percentStyle,
  };
  const money = kind === "money" ? currencyMark(typed).amount : typed;
  // "40 trays": the word of the setting's own unit, or of its unit column, says nothing new
  const words = quantityKind === "number" ? [definedUnit, unit].filter((word) => word !== "") : [];
  let bare = words.reduce(
    (text, word) => (text.toLowerCase().endsWith(word.toLowerCase()) ? text.slice(0, -word.length).trim() : text),
    money,
  );
  if (words.length > 0) bare = bare.replace(/\s+(?:trays?|places?|per hour|\/\s*h(?:our)?)$/i, "");
  const reading = parseQuantity(bare, quantityKind, conventions);

  let value: number | undefined;
  if (reading.kind === "value") value = reading.value;
  else if (reading.kind === "ambiguous" && isPercent) {
    // only one of the two readings may be possible: 0.95 of an interval level can only be 95 %
    const possible = reading.candidates.filter(
      (candidate) => candidate.value * 100 >= low && candidate.value * 100 <= high,
    );
    if (possible.length !== 1) {
      return refuse({
        rule: "bare-share",
        reason: "it could be a percentage or a share of one",
        expected: "a percentage with its sign, such as 12 %",
        setting: "percent_style",
      });
    }
    value = possible[0]!.value;
    change(
      "share-or-percent",
      "only this reading is in the setting's range",
      `${toCanonical(value, { factor: 100, offset: 0 })} %`,
    );
  }
  if (value === undefined) {
    return refuse({
      rule: reading.changes.at(-1)?.rule ?? "not-a-number",
      reason: "no number can be read here for certain",
      expected: range,
    });
  }
  const inDefinedUnit = isPercent ? toCanonical(value, { factor: 100, offset: 0 }) : value;
  if (inDefinedUnit < low || inDefinedUnit > high) {
    return refuse({ rule: "out-of-range", reason: "the value is out of the setting's range", expected: range });
  }
  const wholes: ReadonlyArray<keyof Settings> = [
    "currencyDecimals",
    "shelfPlaces",
    "traysPerLoad",
    "minimumTraysPerArm",
    "seed",
  ];
  if (wholes.includes(property) && !Number.isInteger(value)) {
    return refuse({ rule: "not-a-whole-number", reason: "a whole number is needed", expected: range });
  }
  const last = reading.changes.at(-1);
  if (reading.kind === "value" && last !== undefined) {
    change(last.rule, reading.changes.map(({ reason }) => reason).join("; "), `${inDefinedUnit} ${definedUnit}`.trim());
  }
  return value;
}

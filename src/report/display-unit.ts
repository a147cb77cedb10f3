import type { Settings } from "../records/setting.ts";

/** How a stored number is shown: shown = value x scale + offset, followed by `name` and "per" `per`. */
export interface DisplayUnit {
  scale: number;
  offset: number;
  /** what the number counts, "" for none and for money */
  name: string;
  /** what it is a rate over, "" for none */
  per: string;
  /** money is written with the currency, a share with a percent sign */
  style: "plain" | "money" | "share" | "probability";
}

/** Exact sizes of US customary units. @source NIST Handbook 44, appendix C */
const gramsPerOunce = 28.349523125;
const gramsPerPound = 453.59237;
const litresPerQuart = 0.946352946;

/** the largest weight still shown in ounces, in g */
const ouncesUpTo = 100 * gramsPerOunce;

const measured = /^(g|kg|mL|L|°C)(?= |$)(?: difference)?(.*)$/;

/** The US unit of a metric one, and how many metric units it holds; the largest magnitude decides between small and large. */
function customary(metric: string, largest: number): { name: string; holds: number } {
  switch (metric) {
    case "g":
      return largest <= ouncesUpTo ? { name: "oz", holds: gramsPerOunce } : { name: "lb", holds: gramsPerPound };
    case "kg":
      return { name: "lb", holds: gramsPerPound / 1000 };
    // syringes are marked in mL there too
    case "mL":
      return { name: "mL", holds: 1 };
    case "L":
      return { name: "qt", holds: litresPerQuart };
    default:
      return { name: "°F", holds: 5 / 9 };
  }
}

/**
 * The unit a number of an answer is shown in.
 * Recognised: g, kg, mL, L, °C, "°C difference" (also °C over something), each with words after it ("g dry"); money;
 * share (0 to 1, shown as %); factor and p (no unit). Any other unit is shown as it stands. A slash makes a rate.
 * @param unit as an analysis states it
 * @param largest the largest magnitude that will be shown beside it, so that one column keeps one unit
 * @param signed a signed temperature is a difference: it has no offset
 * @example displayUnit("g", { ...defaultSettings, displayUnits: "us" }, 100).name // "oz"
 */
export function displayUnit(
  unit: string,
  settings: Pick<Settings, "displayUnits">,
  largest: number,
  signed = false,
): DisplayUnit {
  const slash = unit.indexOf("/");
  const top = slash < 0 ? unit : unit.slice(0, slash);
  const bottom = slash < 0 ? "" : unit.slice(slash + 1);
  const shown: DisplayUnit = { scale: 1, offset: 0, name: top, per: bottom, style: "plain" };
  if (top === "money") {
    shown.style = "money";
    shown.name = "";
  } else if (top === "share") {
    shown.style = "share";
    shown.name = "%";
    shown.scale = 100;
  } else if (top === "%") {
    shown.style = "share";
  } else if (top === "p") {
    shown.style = "probability";
    shown.name = "";
  } else if (top === "factor") {
    shown.name = "";
  }
  const numerator = measured.exec(top);
  if (numerator !== null) {
    const [, metric = "", words = ""] = numerator;
    shown.name = `${metric}${words}`;
    if (settings.displayUnits === "us") {
      const { name, holds } = customary(metric, largest);
      shown.name = `${name}${words}`;
      shown.scale = 1 / holds;
      if (metric === "°C" && !signed && bottom === "" && !top.includes("difference")) shown.offset = 32;
    }
  }
  const denominator = settings.displayUnits === "us" ? measured.exec(bottom) : null;
  if (denominator !== null) {
    const [, metric = "", words = ""] = denominator;
    const { name, holds } = customary(metric, 0);
    shown.per = `${name}${words}`;
    shown.scale *= holds;
  }
  return shown;
}

/**
 * Whether a unit is money per gram or mL, or per ounce: too small a part for whole coins to tell anything.
 * @example isFineRate(displayUnit("money/g", defaultSettings, 1)) // true
 */
export const isFineRate = ({ per }: DisplayUnit): boolean => /^(?:g|mL|oz)\b/.test(per);

/** A stored number as it is shown, unrounded. */
export const displayValue = (value: number, unit: DisplayUnit): number => value * unit.scale + unit.offset;

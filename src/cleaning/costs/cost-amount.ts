import type { CostUnit } from "../../records/cost-line.ts";
import { toCanonical, unitNamed } from "../../records/words/units.ts";

/** A unit of a cost sheet: the canonical one it converts to, and how many of that it is. */
export interface CostMeasure {
  unit: CostUnit;
  factor: number;
}

const counted =
  "each|ea|pc|pcs|piece|pieces|unit|units|item|items|count|ct|bag|bags|tray|trays|jar|jars|roll|rolls|box|boxes|filter|filters|lid|lids|pair|pairs|sheet|sheets|set|sets|pack|packs|stk|stück|x|use|uses|time|times|cycle|cycles|mal|fois|veces|volte|keer|razy|vezes|bottle|bottles|needle|needles|label|labels|pouch|pouches|frame|frames|can|cans|mask|masks|glove|gloves|wipe|wipes|swab|swabs|plate|plates|tub|tubs|beutel|stück|st|stuk|stuks|szt|sztuk|sztuki|un|und|unid|unidad|unidades|ud|uds|unité|unités|pièce|pièces|pce|pces|pz|pezzo|pezzi|peça|peças|pieza|piezas";
const fixed: ReadonlyArray<readonly [CostUnit, number, string]> = [
  ["each", 1, counted],
  ["each", 12, "dozen|dz"],
  [
    "hour",
    1,
    "h|hr|hrs|hour|hours|man hour|man hours|manhour|manhours|std|stunde|stunden|heure|heures|hora|horas|ora|ore|uur|uren|godz|godzina|godziny|godzin",
  ],
  ["hour", 1 / 60, "min|mins|minute|minutes|minuten|minuto|minutos|minuti|minuta|minuty|minut"],
  ["hour", 1 / 3600, "s|sec|secs|second|seconds"],
  ["mL", 1e6, "m³|m3|cubic metre|cubic metres|cubic meter|cubic meters|kubikmeter|metre cube|metros cubicos"],
  ["kWh", 1, "kwh|kwhs|kilowatt hour|kilowatt hours|kilowatthour|kilowatthours|unit of electricity"],
  ["kWh", 0.001, "wh|watt hour|watt hours"],
  ["kWh", 1000, "mwh"],
  [
    "month",
    1,
    "month|months|mo|mth|monthly|monat|monate|mois|mes|meses|mese|mesi|maand|maanden|miesiąc|miesiące|mies|mês",
  ],
  [
    "month",
    12,
    "year|years|yr|yrs|y|yearly|annual|annum|jahr|jahre|an|ans|année|año|años|anno|anni|jaar|jaren|rok|lata|ano|anos",
  ],
  ["month", 3, "quarter of a year|quarter|quarters|quarterly|quartal|quartale|trimestre|kwartaal|kwartał"],
  [
    "day",
    1,
    "day|days|d|shelf day|shelf days|tray day|tray days|place day|tag|tage|jour|jours|día|días|dia|dias|giorno|giorni|dag|dagen|dzień|dni",
  ],
  ["day", 14, "fortnight|fortnights|fortnightly"],
  [
    "day",
    7,
    "week|weeks|wk|wks|weekly|woche|wochen|semaine|semaines|semana|semanas|settimana|settimane|weken|tydzień|tygodnie",
  ],
];

const byWord = new Map<string, CostMeasure>();
for (const [unit, factor, words] of fixed) for (const word of words.split("|")) byWord.set(word, { unit, factor });

/**
 * The measure a unit stands for in a cost sheet.
 * @param text as typed: "kg", "Minutes", "fl. oz"
 * @param cupMillilitres size of a cup by the settings
 * @returns undefined when it is no unit
 * @example costMeasure("min", 240) // { unit: "hour", factor: 1 / 60 }
 */
export function costMeasure(text: string, cupMillilitres: number): CostMeasure | undefined {
  const plain = text
    .toLowerCase()
    .replace(/[·*.\-_]/g, " ")
    .replace(/\s+/g, " ")
    .trim();
  // "#" may be pounds, and may be a count
  if (plain === "#") return undefined;
  const own = byWord.get(plain) ?? byWord.get(plain.replaceAll(" ", ""));
  if (own !== undefined) return own;
  const mass = unitNamed(plain, "mass");
  if (mass !== undefined) return { unit: "g", factor: mass.factor };
  const volume = unitNamed(plain, "volume");
  if (volume === undefined) return undefined;
  if (volume.sizedBy === "syringe") return { unit: "each", factor: 1 };
  return { unit: "mL", factor: volume.sizedBy === "cup" ? cupMillilitres : volume.factor };
}

/** the 3 of a cubic metre is no number */
const cubic = /(?<!\p{L})m3(?![\p{L}\d])/giu;

/** A number and what follows its last digit: "25 kg" is "25" and "kg", "2 of each" is "2" and "each"; "100" has no unit. */
export function splitUnit(cell: string): { number: string; unit: string } {
  const text = cell.trim().replace(cubic, "m³");
  const number = /.*[\d½¼¾⅓⅔⅛]/su.exec(text)?.[0] ?? text;
  const unit = text.slice(number.length).replace(/^[.,\s]*(?:of\s)?\s*/i, "");
  return unit === "%" ? { number: text, unit: "" } : { number, unit };
}

/** An amount in the canonical unit of its measure. */
export const inMeasure = (value: number, { factor }: CostMeasure): number => toCanonical(value, { factor, offset: 0 });

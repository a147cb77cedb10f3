import { type SeededRandom, seededRandom } from "../../src/statistics/random/seeded-random.ts";

/** A simulated book as its sheets, with what is true of it. */
export interface MixedBook {
  name: string;
  /** text of each sheet by its path */
  sheets: Record<string, string>;
  /** levels of what the layout varied, lowest first */
  levels: (number | string)[];
  /** highest less lowest dose, or last strain less the mean of the others, g dry a good tray; 0 where nothing differs */
  truth: number;
  /** trays of each level that were picked */
  picked: number[];
}

type Level = number | string;

interface Layout {
  name: string;
  /** level of every tray of every cook, in time order */
  cooks(random: SeededRandom): Level[][];
  /** the column of the level */
  column?: "inoculum_ml" | "strain";
}

const repeated = (levels: ReadonlyArray<Level>, each: number): Level[] =>
  levels.flatMap((level) => Array<Level>(each).fill(level));
const blocks = (cooks: number, levels: ReadonlyArray<Level>, each: number) => (random: SeededRandom) =>
  Array.from({ length: cooks }, () => random.shuffle(repeated(levels, each)));

/** How trays and doses lie over the cooks; the last are books that growers start with. */
export const layouts: ReadonlyArray<Layout> = [
  { name: "4 cooks, 3 doses", cooks: blocks(4, [3, 6, 9], 2) },
  { name: "5 cooks, 4 doses", cooks: blocks(5, [3, 6, 9, 12], 2) },
  { name: "3 cooks, 2 doses", cooks: blocks(3, [3, 9], 3) },
  { name: "8 cooks, 3 doses", cooks: blocks(8, [3, 6, 9], 2) },
  {
    name: "6 cooks, 2 of 3 doses each",
    cooks: (random) =>
      Array.from({ length: 6 }, (_, cook) =>
        random.shuffle(
          repeated(
            [3, 6, 9].filter((_one, i) => i !== cook % 3),
            3,
          ),
        ),
      ),
  },
  {
    name: "9 whole cooks by lot",
    cooks: (random) => random.shuffle([3, 3, 3, 6, 6, 6, 9, 9, 9]).map((one) => repeated([one], 6)),
  },
  { name: "stepped up", cooks: () => [3, 3, 3, 6, 6, 6, 9, 9, 9].map((one) => repeated([one], 6)) },
  { name: "old dose back last", cooks: () => [3, 3, 6, 6, 9, 9, 3, 3].map((one) => repeated([one], 6)) },
  { name: "4 cooks, 3 strains", cooks: blocks(4, ["Amber", "Birch", "Cedar"], 2), column: "strain" },
  { name: "one cook, 3 and 3", cooks: blocks(1, [3, 9], 3) },
  { name: "one tray a dose", cooks: blocks(1, [2, 4, 6, 8, 10], 1) },
  { name: "one and one", cooks: blocks(1, [3, 9], 1) },
  { name: "two cooks, 2 doses", cooks: blocks(2, [3, 9], 2) },
];

/** What a sheet lacks or shares. */
export const faults = [
  "none",
  "no cook column",
  "one blank cook",
  "no dates",
  "one shared day",
  "no cooks, no dates",
  "shelves",
  "blank cells",
  "growing trays",
] as const;

const daysAfter = (start: number, days: number): string =>
  new Date(Date.UTC(2025, 1, 3) + (start + days) * 86_400_000).toISOString().slice(0, 10);

const costs = [
  "item,kind,pack_price,pack_size,pack_unit,amount,amount_unit,per",
  "culture,culture,PRICE,1,mL,1,mL,inoculum mL",
  "grain,ingredient,30,25,kg,380,g,tray",
  "shelf,space,60,1200,day,1,day,shelf day",
  "rent,overhead,40,1,month,1,month,month",
];
const products = ["product,form,grams,current_price,packaging_cost,minutes", "dried 50 g,dried,50,SOLD,0.5,3"];

/** Mean of all but the last. */
const restOf = (values: ReadonlyArray<number>): number =>
  values.slice(0, -1).reduce((sum, value) => sum + value, 0) / (values.length - 1);

interface Chosen {
  layout?: number;
  fault?: (typeof faults)[number];
  gain?: number;
  /** a straight gain, nothing else varied, no losses; trays and cooks differ by 3.5 g each */
  plain?: boolean;
}

/**
 * A book of an arrangement, size, truth and faults that the seed decides: seasons, strains, stepped doses, blank cells, with
 * prices and without.
 * @param chosen what is not left to the seed
 */
export function mixedBook(seed: number, chosen: Chosen = {}): MixedBook {
  const { plain = false } = chosen;
  const random = seededRandom(seed);
  const pick = <T>(values: ReadonlyArray<T>): T => values[random.integer(values.length)]!;
  const layout = layouts[chosen.layout ?? random.integer(layouts.length)]!;
  const drawnFault = pick(faults);
  const fault = chosen.fault ?? drawnFault;
  const drawnGain = pick([0, 0, 4.5, 9, -5]);
  const gain = chosen.gain ?? drawnGain;
  const drawnShape = pick([(x: number) => x, (x: number) => x, (x: number) => 1 - (2 * x - 1) ** 2]);
  const drawn = {
    risk: pick([0, 0.02, 0.05]),
    spacing: pick([14, 14, 40]),
    cookSd: pick([1, 3.5]),
    traySd: pick([2, 3.5]),
  };
  const { risk, spacing, cookSd, traySd } = plain ? { risk: 0, spacing: 14, cookSd: 3.5, traySd: 3.5 } : drawn;
  const hasMoney = random.uniform() < 0.7;
  const [hasLamp, hasSecond] = [random.uniform() < 0.3 && !plain, random.uniform() < 0.3 && !plain];
  const shape = plain ? (x: number) => x : drawnShape;
  const cooks = layout.cooks(random);
  const levels = [...new Set(cooks.flat())].sort((a, b) => (typeof a === "number" ? a - Number(b) : a < b ? -1 : 1));
  const share = (level: Level) => (levels.length === 1 ? 0 : levels.indexOf(level) / (levels.length - 1));
  const shelves = levels.map(() => [random.normal() * 3.5, random.normal() * 3.5]);
  const rows: string[] = [];
  const picked = levels.map(() => 0);
  cooks.forEach((own, cook) => {
    const base = 32 + random.normal() * cookSd;
    own.forEach((level, place) => {
      const start = cook * spacing;
      const second = hasSecond && layout.column === undefined ? (place + cook) % 2 : undefined;
      const at = levels.indexOf(level);
      const dry =
        base +
        gain * shape(share(level)) +
        random.normal() * traySd +
        (fault === "shelves" ? shelves[at]![place % 2]! : 0) +
        (second === 1 ? 1.5 : 0);
      const lost = random.uniform() < risk * (1 + at);
      const growing = fault === "growing trays" && cook === cooks.length - 1 && random.uniform() < 0.5;
      const isBlank = fault === "blank cells" && random.uniform() < 0.08;
      const blankCook = fault === "one blank cook" && rows.length === Math.min(13, cooks.flat().length - 1);
      const good = !lost && !growing;
      if (good && !(isBlank && place % 2 === 0)) picked[at]!++;
      const days = 20 + random.normal() * 2 - (typeof level === "number" ? 0.2 * level : 0);
      const cells: Record<string, string | number> = {
        tray_id: `T${rows.length + 1}`,
        batch: blankCook ? "" : `C${cook + 1}`,
        [layout.column ?? "inoculum_ml"]: isBlank && place % 2 === 1 ? "" : level,
        ...(second === undefined ? {} : { supplement_g: second === 1 ? 30 : 10 }),
        ...(hasLamp ? { "Lamp side": pick(["left", "right"]) } : {}),
        ...(fault === "shelves" ? { shelf: `S${at + 1}${place % 2 === 0 ? "a" : "b"}` } : {}),
        inoculated_on: fault === "one shared day" ? daysAfter(0, 0) : daysAfter(start, 0),
        colonised_on: lost || growing ? "" : daysAfter(fault === "one shared day" ? 0 : start, Math.round(days)),
        harvested_on: good ? daysAfter(fault === "one shared day" ? 0 : start, Math.round(days) + 20) : "",
        outcome: growing ? "growing" : lost ? "contaminated" : "good",
        fresh_g: good ? (dry * 9).toFixed(0) : "",
        dry_g: good && !(isBlank && place % 2 === 0) ? Math.max(0.5, dry).toFixed(1) : "",
      };
      const withoutCook = ["no cook column", "one shared day", "no cooks, no dates"].includes(fault);
      if (withoutCook) delete cells.batch;
      if (fault === "no dates" || fault === "no cooks, no dates") {
        delete cells.inoculated_on;
        delete cells.colonised_on;
        delete cells.harvested_on;
      }
      if (rows.length === 0) rows.push(Object.keys(cells).join(","));
      rows.push(Object.values(cells).join(","));
    });
  });
  return {
    name: `seed ${seed}, ${layout.name}, ${fault}, gain ${gain}${hasMoney ? "" : ", no money"}`,
    sheets: {
      "harvests/trays.csv": `${rows.join("\n")}\n`,
      ...(hasMoney
        ? {
            "costs.csv": costs.join("\n").replace("PRICE", String(pick([0.02, 0.1, 0.4]))),
            "products.csv": products.join("\n").replace("SOLD", String(pick([8, 15, 25]))),
          }
        : {}),
    },
    levels,
    truth:
      gain * (shape(1) - (layout.column === "strain" ? restOf(levels.map((level) => shape(share(level)))) : shape(0))),
    picked,
  };
}

import { demoFiles } from "../../data-samples/demo-book.ts";
import { firstYearFiles } from "../../data-samples/first-year.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";

/** Sheets of one book by their path in its folder. */
type Sheets = Readonly<Record<string, string>>;

/** A simulated trial whose sheet is written column by column. */
interface Trial {
  seed: number;
  cooks: number;
  copies: number;
  /** head of the column that varies, and its levels */
  head: string;
  levels: ReadonlyArray<number | string>;
  /** dry grams expected of the level at this place of the list */
  mean?(place: number): number;
  cookSd?: number;
  traySd?: number;
  /** share of trays lost */
  loss?: number;
  digits?: number;
  /** what cook names begin with */
  cook?: string;
  growing?: boolean;
  more?: ReadonlyArray<readonly [head: string, cell: (number: number) => string | number]>;
  start?: string;
}

const dayAfter = (first: string, days: number): string =>
  new Date(Date.parse(`${first}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);

/** The harvest sheet of a trial in which every cook holds every level equally often. */
function harvests(trial: Trial): Sheets {
  const {
    cookSd = 2,
    traySd = 3,
    loss = 0.08,
    digits = 1,
    cook = "C",
    more = [],
    mean = (place) => 24 + 2 * place,
  } = trial;
  const random = seededRandom(trial.seed);
  let number = 0;
  const rows = Array.from({ length: trial.cooks }, (_, at) => {
    const ofCook = cookSd * random.normal();
    const started = dayAfter(trial.start ?? "2025-09-01", 14 * at);
    const plan = trial.levels.flatMap((level, place) => Array.from({ length: trial.copies }, () => ({ level, place })));
    return random.shuffle(plan).map(({ level, place }) => {
      number += 1;
      const dry = Math.max(10 ** -digits, mean(place) + ofCook + traySd * random.normal());
      const lost = random.uniform() < loss;
      const days = 13 + random.integer(4);
      const cells = [`T${number}`, `${cook}${at + 1}`, level];
      if (trial.growing) cells.push("growing", "", "", started, "", "");
      else if (lost) cells.push("contaminated", "", "", started, "", "");
      else {
        const fresh = (dry * (8.6 + random.uniform())).toFixed(Math.max(0, digits - 1));
        cells.push("good", fresh, dry.toFixed(digits), started, dayAfter(started, days), dayAfter(started, days + 27));
      }
      return [...cells, ...more.map(([, cell]) => cell(number))].join(",");
    });
  }).flat();
  const head = `tray_id,batch,${trial.head},outcome,fresh_g,dry_g,inoculated_on,colonised_on,harvested_on`;
  return { "harvests/trays.csv": [[head, ...more.map(([name]) => name)].join(","), ...rows].join("\n") };
}

const ofFolder = (files: Sheets, folder: string): Sheets =>
  Object.fromEntries(
    Object.entries(files)
      .filter(([path]) => path.startsWith(`${folder}/`) && path.endsWith(".csv"))
      .map(([path, text]) => [path.slice(folder.length + 1), text]),
  );

const demo = (): Sheets => ofFolder(demoFiles(), "demo-book");
const money = (): Sheets => {
  const { "costs.csv": costs, "products.csv": products, "settings.csv": settings } = demo();
  return { "costs.csv": costs!, "products.csv": products!, "settings.csv": settings! };
};

const dose = { head: "inoculum_ml", levels: [3, 6, 9, 12] };
const sixTrays = [
  "tray_id,batch,inoculum_ml,outcome,fresh_g,dry_g,inoculated_on,colonised_on,harvested_on",
  "T1,C1,3,good,210,21.0,2026-03-02,2026-03-17,2026-04-20",
  "T2,C1,3,good,225,22.5,2026-03-02,2026-03-18,2026-04-20",
  "T3,C1,3,good,251,25.1,2026-03-02,2026-03-17,2026-04-20",
  "T4,C1,9,good,287,28.7,2026-03-02,2026-03-15,2026-04-18",
  "T5,C1,9,good,306,30.6,2026-03-02,2026-03-14,2026-04-18",
  "T6,C1,9,contaminated,,,2026-03-02,,",
].join("\n");

const longStrains = [
  "Late winter oyster, second transfer from the beech log",
  "Grey king oyster of the north shed, culture of 2024",
  "Pioppino, slow",
  "Lion's mane with long teeth and a very long name indeed",
  "Chestnut",
];

const manyProducts = (sheet: string): string => {
  const [head, first] = sheet.split("\n");
  const rows = Array.from({ length: 16 }, (_, at) =>
    first!
      .replace("dried slices 50 g", `slices in a jar with a wooden lid and size ${at + 1}`)
      .replace(",50,", `,${20 + 15 * at},`)
      .replace(",24.9,", `,${(4 + 5.5 * at).toFixed(2)},`),
  );
  return [head, ...rows].join("\n");
};

/** Books that differ from the demo in one thing each, by what that is: what charts, words and budgets are held to. */
export const uncommonBooks: Readonly<Record<string, () => Sheets>> = {
  demo,
  "first year": () => ofFolder(firstYearFiles(), "first-year"),
  "six trays": () => ({ "harvests/trays.csv": sixTrays }),
  "one tray a dose": () => harvests({ ...dose, seed: 3, cooks: 1, copies: 1, levels: [2, 4, 6, 8, 10, 12], loss: 0 }),
  "800 trays": () => ({ ...harvests({ ...dose, seed: 4, cooks: 20, copies: 10 }), ...money() }),
  "spawn in grams": () => ({
    ...harvests({
      seed: 6,
      cooks: 4,
      copies: 3,
      head: "spawn_g",
      levels: [60, 120, 180],
      mean: (place) => 26 + 3 * place,
    }),
    ...money(),
  }),
  "supplement trial": () => ({
    ...harvests({
      seed: 7,
      cooks: 4,
      copies: 3,
      head: "supplement_g",
      levels: [0, 25, 50, 75],
      more: [
        ["supplement", () => "soy hulls"],
        ["inoculum_ml", () => 6],
      ],
    }),
    ...money(),
  }),
  "all lost": () => ({ ...harvests({ ...dose, seed: 8, cooks: 3, copies: 3, loss: 1 }), ...money() }),
  "everything growing": () => ({
    ...harvests({ ...dose, seed: 9, cooks: 2, copies: 4, growing: true, start: "2026-05-01" }),
    ...money(),
  }),
  "twelve doses": () =>
    harvests({
      ...dose,
      seed: 10,
      cooks: 4,
      copies: 2,
      levels: [1, 2, 3, 4, 5, 6, 7, 8, 10, 12, 16, 20],
      mean: (place) => 20 + 1.2 * place,
    }),
  "doses close together": () =>
    harvests({ ...dose, seed: 11, cooks: 4, copies: 3, levels: [0.5, 1, 1.5, 2, 30], mean: (place) => 22 + 2 * place }),
  "long strain names": () =>
    harvests({ seed: 12, cooks: 4, copies: 3, head: "strain", levels: longStrains.map((name) => `"${name}"`) }),
  "huge values": () =>
    harvests({
      ...dose,
      seed: 13,
      cooks: 4,
      copies: 3,
      levels: [500, 1000, 2000],
      mean: (place) => 820 + 90 * place,
      cookSd: 40,
      traySd: 70,
      digits: 0,
      more: [["substrate_wet_g", () => 22_000]],
    }),
  "tiny values": () =>
    harvests({
      ...dose,
      seed: 14,
      cooks: 4,
      copies: 3,
      levels: [0.05, 0.1, 0.2],
      mean: (place) => 0.4 + 0.05 * place,
      cookSd: 0.03,
      traySd: 0.05,
      digits: 3,
      more: [["substrate_wet_g", () => 15]],
    }),
  "one dose": () => ({ ...harvests({ ...dose, seed: 15, cooks: 4, copies: 6, levels: [6] }), ...money() }),
  "negative gains": () => ({
    ...harvests({ ...dose, seed: 16, cooks: 5, copies: 4, mean: (place) => 34 - 3 * place }),
    ...money(),
  }),
  "no spread": () =>
    harvests({ ...dose, seed: 17, cooks: 4, copies: 3, mean: () => 25, cookSd: 0, traySd: 0, loss: 0 }),
  "one cook a dose": () => harvests({ seed: 18, cooks: 1, copies: 6, head: "inoculum_ml", levels: [3, 6, 9] }),
  "two trays": () => ({ "harvests/trays.csv": sixTrays.split("\n").slice(0, 3).join("\n") }),
  "long cook names": () =>
    harvests({ ...dose, seed: 19, cooks: 26, copies: 1, cook: "Thursday cook in the old dairy with pot number " }),
  "sixteen products": () => {
    const { "products.csv": products, ...rest } = demo();
    return { ...rest, "products.csv": manyProducts(products!) };
  },
  "a column of one's own": () =>
    harvests({ seed: 23, cooks: 4, copies: 2, head: "fan runs per day", levels: [2, 4, 8] }),
  "one tray far out": () => {
    const sheets = harvests({ ...dose, seed: 21, cooks: 3, copies: 3, loss: 0 });
    const rows = sheets["harvests/trays.csv"]!.split("\n");
    const cells = rows[5]!.split(",");
    cells[4] = "2610";
    cells[5] = "290.0";
    rows[5] = cells.join(",");
    return { "harvests/trays.csv": rows.join("\n") };
  },
};

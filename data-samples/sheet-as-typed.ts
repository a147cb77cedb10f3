import type { SeededRandom } from "../src/statistics/random/seeded-random.ts";
import type { DemoTray } from "./demo-trial.ts";

const header = [
  "Tray #",
  "Cook",
  "Load no.",
  "Place in load",
  "LC jar",
  "Species",
  "Shelf",
  "Bag type",
  "Wet substrate",
  "Sorghum (air dry)",
  "Supplement",
  "Supp. grade",
  "Soy hulls",
  "Inoculum",
  "Water added (mL)",
  "Spawn run temp",
  "Fruiting temp °F",
  "Inoculated",
  "Fully colonized",
  "To fruiting",
  "Picked",
  "Dried on",
  "How it went",
  "Fresh wt",
  "Dry wt (g)",
  "Remarks",
];

const comma = (value: number): string => String(value).replace(".", ",");
const months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/**
 * The same trial as a tired person types it: units in cells, decimal commas, several ways to write a date,
 * words for outcomes, a title above the header, the header again in the middle, a totals row below.
 * Every cell still means exactly what the tidy sheet says, but for the few cells marked as guesses ("~").
 */
export function sheetAsTyped(trays: ReadonlyArray<DemoTray>, random: SeededRandom): string {
  const pick = <T>(choices: ReadonlyArray<T>): T => choices[random.integer(choices.length)]!;
  const date = (iso: string | undefined): string => {
    if (iso === undefined) return pick(["", "-"]);
    const [year, month, day] = iso.split("-").map(Number) as [number, number, number];
    return pick([
      `${day}/${month}/${year}`,
      `${day}/${month}/${year % 100}`,
      `${day}.${month}.${year}`,
      `${day} ${months[month - 1]} ${year}`,
      iso,
    ]);
  };
  const fresh = (grams: number): string => pick([`${grams} g`, `${grams}`, `${grams}g`, `${comma(grams / 1000)} kg`]);
  const outcome = (tray: DemoTray): string =>
    tray.outcome === "good"
      ? pick(["ok", "good", "fine", "OK"])
      : tray.outcome === "contaminated"
        ? pick(["contam", "green mold", "contaminated"])
        : "still growing";
  const rows = trays.map((tray, index) => {
    const guessed = index % 23 === 11 && tray.outcome === "good";
    const lost = tray.outcome === "contaminated";
    return [
      tray.trayId,
      tray.batch,
      tray.load,
      String(tray.loadPosition),
      tray.jar,
      "lion's mane",
      tray.shelf,
      "filter-bag tray",
      pick(["2 lb", "2lb", "2 lbs"]),
      pick(["380 g", "380", "0,38 kg"]),
      "soy hulls",
      pick([tray.supplementGrade, ` ${tray.supplementGrade}`, `${tray.supplementGrade} `]),
      pick(["40 g", "40"]),
      pick([
        `${tray.doseMillilitres} mL`,
        `${tray.doseMillilitres}ml`,
        `${tray.doseMillilitres} cc`,
        `${tray.doseMillilitres},0`,
      ]),
      String(12 - tray.doseMillilitres),
      pick(["22 C", "22°C", "22", "71.6 F"]),
      pick(["64.4", "64,4"]),
      date(tray.inoculatedOn),
      date(tray.colonisedOn),
      date(tray.fruitingOn),
      date(tray.harvestedOn),
      date(tray.driedOn),
      outcome(tray),
      tray.freshGrams === undefined ? (lost ? pick(["contam", "tossed", ""]) : "") : fresh(tray.freshGrams),
      tray.dryGrams === undefined ? (lost ? pick(["0", "-", ""]) : "") : `${guessed ? "~" : ""}${comma(tray.dryGrams)}`,
      guessed ? "scale was drifting" : "",
    ];
  });
  const half = Math.ceil(rows.length / 2);
  const sum = (values: (number | undefined)[]) => values.reduce<number>((total, value) => total + (value ?? 0), 0);
  const totals = header.map((label) =>
    label === "Tray #"
      ? "Total"
      : label === "Fresh wt"
        ? String(sum(trays.map((tray) => tray.freshGrams)))
        : label === "Dry wt (g)"
          ? comma(Math.round(sum(trays.map((tray) => tray.dryGrams)) * 10) / 10)
          : "",
  );
  const lines = [
    ["Spring dose trial, Lantern Shed"],
    [],
    header,
    ...rows.slice(0, half),
    header,
    ...rows.slice(half),
    totals,
  ];
  return `\ufeff${lines.map((cells) => cells.join(";")).join("\r\n")}\r\n`;
}

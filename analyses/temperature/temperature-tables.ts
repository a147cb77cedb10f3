import type { Table, Trial } from "../../src/analysis.ts";
import { daysCharged } from "../../src/costing/trays/tray-life.ts";
import { startedCount } from "../../src/design/arm.ts";
import { grouped } from "../../src/records/grouped.ts";
import { hasEnded, isLost, type Tray } from "../../src/records/tray.ts";
import type { TrayResponse } from "../comparison/tray-response.ts";
import { bookCosts } from "../costs/book-prices.ts";
import { type ChamberRun, runMean } from "./chamber-runs.ts";

/** Money by temperature: energy, what a tray and a shelf day cost; undefined without costs. */
export function temperatureMoney(
  trial: Trial,
  groups: { label: string; celsius: number | undefined; trays: Tray[] }[],
): Table | undefined {
  const costs = bookCosts(trial);
  if (costs.kind === "cannot-tell") return undefined;
  const place = new Map(costs.trays.map((tray, index) => [tray, index]));
  const rows = groups.map(({ label, trays }) => {
    let [energy, total, days, dayTotal] = [0, 0, 0, 0];
    const finished = trays.filter(hasEnded);
    for (const tray of finished) {
      const index = place.get(tray)!;
      costs.items.forEach(({ kind }, row) => {
        if (kind === "energy") energy += costs.amounts[row]![index]!;
      });
      total += costs.totals[index]!;
      const stood = daysCharged(costs.lives[index]!, "filling");
      if (stood === undefined) continue;
      days += stood * tray.traysInPool;
      dayTotal += costs.totals[index]!;
    }
    const started = startedCount(finished);
    const per = (sum: number, by: number) => (by > 0 ? sum / by : null);
    return [
      label,
      started,
      startedCount(finished.filter(isLost)),
      per(energy, started),
      per(total, started),
      per(days, started),
      per(dayTotal, days),
    ];
  });
  return {
    caption: "Energy and cost by temperature",
    columns: [
      { label: "Temperature" },
      { label: "finished", unit: "trays" },
      { label: "lost", unit: "trays" },
      { label: "energy of a started tray", unit: "money" },
      { label: "cost of a started tray", unit: "money" },
      { label: "days a started tray stood", unit: "days" },
      { label: "cost of a shelf day", unit: "money" },
    ],
    rows,
    note: "From costs.csv as it stands: energy differs by temperature only where its lines are limited to a chamber or temperature, or counted per shelf day.",
  };
}

/** Trays with a temperature, coolest first. */
export function traysByTemperature(
  trays: ReadonlyArray<Tray>,
): { label: string; celsius: number | undefined; trays: Tray[] }[] {
  return [...grouped(trays, ({ fruitingCelsius }) => fruitingCelsius)]
    .sort(([a], [b]) => a - b)
    .map(([celsius, own]) => ({ label: `${celsius} °C`, celsius, trays: own }));
}

/** Every chamber run with its means. */
export function runTable(runs: ReadonlyArray<ChamberRun>, responses: ReadonlyArray<TrayResponse>): Table {
  return {
    caption: "Chamber runs: the units of this question",
    columns: [
      { label: "Run" },
      { label: "chamber" },
      { label: "temperature", unit: "°C" },
      { label: "trays", unit: "trays" },
      ...responses.map(({ label, unit }) => ({ label: `mean ${label}`, unit })),
    ],
    rows: runs
      .slice(0, 60)
      .map((run) => [
        run.cook ?? "no cook",
        run.chamber ?? "not recorded",
        run.celsius ?? null,
        startedCount(run.trays),
        ...responses.map((response) => runMean(run, response) ?? null),
      ]),
    ...(runs.length > 60 ? { note: `The first 60 of ${runs.length}.` } : {}),
  };
}

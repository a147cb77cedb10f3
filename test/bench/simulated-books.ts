import { broken, type Measured, measureRates } from "../simulation/measure-rates.ts";
import { scenarios } from "../simulation/scenarios.ts";

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`.padStart(8);

const asks = {
  good: "yield per good tray",
  started: "yield per started tray",
  days: "days to colonise",
  looks: "gain, a look after every cook",
  "best dose": "dose that earns most",
  losses: "losses: more than chance",
} as const;

function whatIsRight({ scenario, alarmIsFalse, read }: Measured): string {
  if (scenario.right === "cannot tell") return "cannot tell";
  if (read === "best dose") return alarmIsFalse ? "no optimum inside" : "optimum inside";
  return alarmIsFalse ? "no alarm" : "difference held";
}

const headings = [
  "scenario".padEnd(62),
  "asked".padEnd(30),
  "right".padEnd(17),
  "  alarm",
  " cannot",
  "headline",
  "| plain: alarm",
  " held",
  " | verdict",
].join(" ");

function row(measured: Measured): string {
  const { scenario, read, ours, naive } = measured;
  const misses = broken(measured);
  return [
    scenario.name.padEnd(62),
    asks[read].padEnd(30),
    whatIsRight(measured).padEnd(17),
    percent(ours.alarm),
    percent(ours.cannotTell),
    percent(ours.headlineCoverage),
    "|",
    percent(naive.alarm),
    percent(naive.headlineCoverage),
    "|",
    misses.length === 0 ? "kept" : misses.join("; "),
  ].join(" ");
}

/**
 * Error rates over simulated books of known truth: false alarms against 5 %, intervals against 95 %, each with two standard
 * errors of the counted rate; what cannot be separated must be reported so in every book. "plain" is the heap of all trays of
 * a dose compared by a t test (for losses the worst cook against the rest, for money the dose with the best mean).
 * @param books per scenario
 */
export function benchSimulatedBooks(books = 2000): void {
  console.log(`${books} books of each scenario, seeds 1 to ${books}`);
  console.log(headings);
  let rows = 0;
  let missed = 0;
  for (const scenario of scenarios) {
    for (const read of scenario.reads) {
      const measured = measureRates(scenario, read, books);
      rows++;
      if (broken(measured).length > 0) missed++;
      console.log(row(measured));
    }
  }
  console.log(`${rows - missed} of ${rows} rows kept what is promised`);
}

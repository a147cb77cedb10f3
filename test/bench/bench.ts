import { benchDoseDecision } from "./dose-decision.ts";
import { benchFaults } from "./faults.ts";
import { benchFirstYear } from "./first-year.ts";
import { benchLayouts } from "./layouts.ts";
import { benchLive, benchLiveAnswers } from "./live.ts";
import { benchMessySheets } from "./messy-sheets.ts";
import { benchMixedBooks } from "./mixed-books.ts";
import { benchMutants } from "./mutants.ts";
import { benchNodes } from "./nodes.ts";
import { benchPage } from "./page.ts";
import { benchSimulatedBooks } from "./simulated-books.ts";
import { benchStatistics } from "./statistics.ts";
import { benchVerdicts } from "./verdicts.ts";
import { benchWholePath } from "./whole-path.ts";

/** The parts of the bench by name; `npm run bench` runs all, `npm run bench -- NAME` one. */
const parts: Record<string, () => void | Promise<void>> = {
  "messy-sheets": () => benchMessySheets(100_000),
  layouts: () => benchLayouts(10_000),
  page: () => benchPage(),
  live: () => benchLive(),
  "faults-places": () => benchFaults(["places"]),
  "faults-sheets": () => benchFaults(["sheets"]),
  "faults-kills": () => benchFaults(["kills"]),
  "short-faults": () => benchFaults(["places", "sheets", "kills"], { kills: 8, sheets: 300, books: 12 }),
  nodes: () => benchNodes(),
  "live-answers": () => benchLiveAnswers(),
  "simulated-books": () => benchSimulatedBooks(),
  "mixed-books": () => benchMixedBooks(),
  "dose-decision": () => benchDoseDecision(),
  verdicts: () => benchVerdicts(),
  "first-year": () => benchFirstYear(),
  statistics: () => benchStatistics(),
  "mutants-cleaning": () => benchMutants("cleaning"),
  "mutants-statistics": () => benchMutants("statistics"),
  "mutants-money": () => benchMutants("money"),
  "mutants-comparison": () => benchMutants("comparison"),
  "whole-path": () => benchWholePath([200, 20_000, 1_000_000]),
  "million-rows-report": () => benchWholePath([1_000_000], { reportOnAll: true }),
};

const wanted = process.argv.slice(2);
/** A part by its name, or all parts that begin with it: "faults" is all of "faults-places", "faults-sheets" and so on. */
const isWanted = (name: string, by: string): boolean => name === by || name.startsWith(`${by}-`);
const unknown = wanted.find((by) => !Object.keys(parts).some((name) => isWanted(name, by)));
if (unknown !== undefined) {
  console.error(`There is no part "${unknown}". Parts: ${Object.keys(parts).join(", ")}`);
  process.exitCode = 1;
} else {
  for (const [name, run] of Object.entries(parts)) {
    if (wanted.length > 0 && !wanted.some((by) => isWanted(name, by))) continue;
    console.log(`\n${name}`);
    await run();
  }
}

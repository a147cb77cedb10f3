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

/** The parts of the bench by name; `npm run bench` runs all, `npm run bench -- NAME` one, `NAME:PIECE,PIECE` some of it. */
const parts: Record<string, (pieces?: ReadonlyArray<string>) => void | Promise<void>> = {
  "messy-sheets": () => benchMessySheets(100_000),
  layouts: () => benchLayouts(10_000),
  page: () => benchPage(),
  live: () => benchLive(),
  faults: (pieces) => benchFaults(pieces),
  nodes: () => benchNodes(),
  "live-answers": () => benchLiveAnswers(),
  "simulated-books": () => benchSimulatedBooks(),
  "mixed-books": () => benchMixedBooks(),
  "dose-decision": () => benchDoseDecision(),
  verdicts: () => benchVerdicts(),
  "first-year": () => benchFirstYear(),
  statistics: () => benchStatistics(),
  mutants: (pieces) => benchMutants(pieces),
  "whole-path": () => benchWholePath([200, 20_000, 1_000_000]),
  "million-rows-report": () => benchWholePath([1_000_000], { reportOnAll: true }),
};

const wanted = new Map(
  process.argv.slice(2).map((argument): [string, string[] | undefined] => {
    const [name = "", pieces] = argument.split(":");
    return [name, pieces?.split(",")];
  }),
);
const unknown = [...wanted.keys()].find((name) => !Object.hasOwn(parts, name));
if (unknown !== undefined) {
  console.error(`There is no part "${unknown}". Parts: ${Object.keys(parts).join(", ")}`);
  process.exitCode = 1;
} else {
  for (const [name, run] of Object.entries(parts)) {
    if (wanted.size > 0 && !wanted.has(name)) continue;
    console.log(`\n${name}`);
    await run(wanted.get(name));
  }
}

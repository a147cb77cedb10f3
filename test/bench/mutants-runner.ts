import { appendFileSync } from "node:fs";
import { relative } from "node:path";
import { Script } from "node:vm";
import { type RunnerTestCase, TestRunner } from "vitest";

/** What the switches in the changed sources look at (StrykerJS, instrumenter package): which fault is on, and who came by. */
interface Switches {
  activeMutant?: string | undefined;
  currentTestId?: string | undefined;
  hitCount?: number | undefined;
  hitLimit?: number;
  mutantCoverage?: { static: Record<string, number>; perTest: Record<string, Record<string, number>> };
}

/** Tests that take longer wait until the others have been tried; seconds of this process. */
const patience = 0.15;
/** A call that goes on this much longer than the test itself does not end: times, and milliseconds. */
const longestTimes = 20;
const longestExtra = 10_000;
const secondsUsed = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
};

/** What one run of the tests found, a line each in the file named by GRAMWRIGHT_FAULT_LOG. */
export type FaultLine =
  | { id: string; reachedBy: string }
  | { id: string; leftFor: string }
  | { id: string; noticedBy: string; endless: boolean }
  | { id: string; onLoading: true }
  | { spoiled: string };

interface State {
  switches: Switches;
  /** faults that no test has noticed yet */
  waiting: Set<string>;
  run?: () => unknown;
  told: Set<string>;
}

/** What a test is run by, so that a loop without an end can be broken off. */
const inTime = new Script("faultState.run()");

// a worker's files share what is found: the tests of one file need not look at what another has noticed
const shared = globalThis as typeof globalThis & { __stryker__?: Switches; faultState?: State };

function startState(): State {
  shared.__stryker__ ??= {};
  const switches = shared.__stryker__;
  const only = process.env.GRAMWRIGHT_FAULT ?? "";
  if (only !== "") Object.assign(switches, { activeMutant: only, hitCount: 0, hitLimit: 3_000_000 });
  return { switches, waiting: new Set((process.env.GRAMWRIGHT_FAULTS ?? "").split(",")), told: new Set() };
}

function stateOfWorker(): State {
  shared.faultState ??= startState();
  return shared.faultState;
}

function tell(state: State, line: FaultLine): void {
  const text = JSON.stringify(line);
  if (state.told.has(text)) return;
  state.told.add(text);
  appendFileSync(process.env.GRAMWRIGHT_FAULT_LOG!, `${text}\n`);
}

/**
 * Runs each test as it is, then again with each fault that it came by switched on, one at a time, until one test has noticed
 * it. A fault in what runs as modules load is only named here. With GRAMWRIGHT_FAULT set, that one is on all the time.
 */
export default class FaultRunner extends TestRunner {
  private readonly state = stateOfWorker();

  async runTask(test: RunnerTestCase): Promise<void> {
    const run = TestRunner.getTestFn(test);
    const { switches, waiting } = this.state;
    if (switches.activeMutant !== undefined) return void (await run());
    const file = relative(process.cwd(), test.file.filepath);
    switches.currentTestId = test.id;
    const start = secondsUsed();
    const startClock = performance.now();
    await run();
    const isSlow = secondsUsed() - start > patience && process.env.GRAMWRIGHT_FAULT_SLOW !== "1";
    const longest = longestExtra + longestTimes * (performance.now() - startClock);
    const met = switches.mutantCoverage?.perTest[test.id] ?? {};
    switches.currentTestId = "with a fault on";
    for (const [id, times] of Object.entries(met)) {
      if (!waiting.has(id)) continue;
      tell(this.state, isSlow ? { id, leftFor: file } : { id, reachedBy: file });
      if (isSlow) continue;
      const noticed = await this.notices(run, id, times, longest);
      if (noticed === undefined) continue;
      if ((await this.notices(run, undefined, times, longest)) !== undefined) {
        // what it left behind fails the test without it: it is looked at in a run of its own
        tell(this.state, { spoiled: `${file} > ${test.name}` });
        continue;
      }
      waiting.delete(id);
      tell(this.state, { id, noticedBy: `${file} > ${test.name}`, endless: noticed === "endless" });
    }
    switches.currentTestId = undefined;
    delete switches.mutantCoverage?.perTest["with a fault on"];
  }

  private async notices(
    run: () => unknown,
    id: string | undefined,
    times: number,
    longest: number,
  ): Promise<"failed" | "endless" | undefined> {
    const { switches } = this.state;
    Object.assign(switches, { activeMutant: id, hitCount: 0, hitLimit: 1000 + 100 * times });
    try {
      this.state.run = run;
      await inTime.runInThisContext({ timeout: Math.ceil(longest) });
      return undefined;
    } catch (error) {
      const broken = (error as { code?: unknown } | undefined)?.code === "ERR_SCRIPT_EXECUTION_TIMEOUT";
      return broken || switches.hitCount! > switches.hitLimit! ? "endless" : "failed";
    } finally {
      Object.assign(switches, { activeMutant: undefined, hitCount: undefined });
    }
  }

  override onAfterRunFiles(): void {
    const { mutantCoverage, activeMutant } = this.state.switches;
    if (activeMutant === undefined)
      for (const id of Object.keys(mutantCoverage?.static ?? {})) tell(this.state, { id, onLoading: true });
    super.onAfterRunFiles();
  }
}

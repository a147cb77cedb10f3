import { appendFileSync, readFileSync } from "node:fs";
import { relative, resolve } from "node:path";
import { Script } from "node:vm";
import { startTests } from "@vitest/runner";
import { type RunnerTestCase, type RunnerTestFile, TestRunner } from "vitest";

/** What the switches in the changed sources look at (StrykerJS, instrumenter package): which fault is on, and who came by. */
interface Switches {
  activeMutant?: string | undefined;
  currentTestId?: string | undefined;
  hitCount?: number | undefined;
  hitLimit?: number;
  mutantCoverage?: { static: Record<string, number>; perTest: Record<string, Record<string, number>> };
}

/** What a file of tests came by: seconds of this process, how often each fault was met, by test, and what it loads. */
export interface FileLine {
  file: string;
  tests: Record<string, { seconds: number; met: Record<string, number> }>;
  loads: string[];
  /** faults met so far by what runs as modules load */
  onLoading: string[];
}

/** A fault, and the files of tests to ask about it with the tests of each and how often each comes by it. */
export interface FaultToTry {
  id: string;
  fileName: string;
  onLoading: boolean;
  files: { file: string; asked: Record<string, number> }[];
}

export interface FateLine {
  id: string;
  fate: string;
}

/** What Vite keeps of a module that was loaded. */
interface LoadedModule {
  file: string;
  importers: Set<string>;
  imports: Set<string>;
}

interface LoadedModules {
  idToModuleMap: Map<string, LoadedModule>;
  getModulesByFile(file: string): Set<LoadedModule> | undefined;
}

const longestTest = 4_000; // milliseconds after which a test is broken off and not asked
const longestFault = 6; // seconds that tests are given to notice a fault
const longestCall = 20_000; // milliseconds after which a test with a fault on does not end
const hitsOnLoading = 3_000_000;
const secondsUsed = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
};
const own = (file: string): string => relative(process.cwd(), file);
const shared = globalThis as typeof globalThis & { __stryker__?: Switches; runTest?: () => unknown };
const switches = (): Switches => {
  shared.__stryker__ ??= {};
  return shared.__stryker__;
};
const tell = (line: FileLine | FateLine): void =>
  appendFileSync(process.env.GRAMWRIGHT_FAULT_LOG!, `${JSON.stringify(line)}\n`);
/** What a test is run by, so that a loop without an end can be broken off. */
const inTime = new Script("runTest()");

/** Runs some tests of a file inside another run until one of them fails, and reports to nobody. */
class QuietRunner extends TestRunner {
  failed: string | undefined;
  asked: Record<string, number> = {};
  until = 0;

  override async onAfterRunSuite(): Promise<void> {}

  async runTask(test: RunnerTestCase): Promise<void> {
    const times = this.asked[test.id];
    if (times === undefined || this.failed !== undefined || secondsUsed() > this.until) return;
    if (times > 0) Object.assign(switches(), { hitCount: 0, hitLimit: 1000 + 100 * times });
    shared.runTest = TestRunner.getTestFn(test);
    try {
      await inTime.runInThisContext({ timeout: longestCall });
    } catch (error) {
      this.failed = test.id;
      throw error;
    }
  }
}

/**
 * Runs tests as they are and tells which faults each comes by. With GRAMWRIGHT_FAULTS, a file of faults, it tries these
 * instead: with one of them on, files of tests are run again until a test fails; where the fault is in what runs as modules
 * load, those that hold it are loaded anew.
 */
export default class FaultRunner extends TestRunner {
  private tests: FileLine["tests"] = {};

  async runTask(test: RunnerTestCase): Promise<void> {
    const start = secondsUsed();
    switches().currentTestId = test.id;
    shared.runTest = TestRunner.getTestFn(test);
    try {
      await inTime.runInThisContext({ timeout: longestTest });
      const met = switches().mutantCoverage?.perTest[test.id] ?? {};
      this.tests[test.id] = { seconds: secondsUsed() - start, met };
    } catch (error) {
      if ((error as { code?: unknown } | undefined)?.code !== "ERR_SCRIPT_EXECUTION_TIMEOUT") throw error;
    } finally {
      switches().currentTestId = undefined;
    }
  }

  override async onAfterRunFiles(files: RunnerTestFile[] = []): Promise<void> {
    super.onAfterRunFiles();
    if (process.env.GRAMWRIGHT_FAULTS !== undefined) {
      for (const fault of JSON.parse(readFileSync(process.env.GRAMWRIGHT_FAULTS, "utf8")) as FaultToTry[])
        tell({ id: fault.id, fate: await this.fateOf(fault) });
      return;
    }
    const onLoading = Object.keys(switches().mutantCoverage?.static ?? {});
    for (const { filepath } of files) {
      const loads = [...this.closure([filepath], "imports")].map(({ file }) => own(file));
      tell({ file: own(filepath), tests: this.tests, loads, onLoading });
    }
    this.tests = {};
  }

  /** These files and all that they import, or that imports them. */
  private closure(files: ReadonlyArray<string>, by: "imports" | "importers"): Set<LoadedModule> {
    const { evaluatedModules } = (this as unknown as { workerState: { evaluatedModules: LoadedModules } }).workerState;
    const found = new Set(files.flatMap((file) => [...(evaluatedModules.getModulesByFile(resolve(file)) ?? [])]));
    for (const one of found)
      for (const id of one[by]) {
        const next = evaluatedModules.idToModuleMap.get(id);
        if (next !== undefined) found.add(next);
      }
    return found;
  }

  /** Forgets a file and what imports it, so that they are loaded anew. */
  private forget(file: string): void {
    for (const module of this.closure([file], "importers"))
      Object.assign(module, { promise: undefined, exports: undefined, evaluated: false });
  }

  private async fateOf({ id, fileName, onLoading, files }: FaultToTry): Promise<string> {
    const until = secondsUsed() + longestFault;
    try {
      if (onLoading) this.forget(fileName);
      for (const { file, asked } of files) {
        if (secondsUsed() > until) return "not noticed in the time given";
        const failed = await this.failing(id, file, asked, until);
        if (failed === undefined) continue;
        // what a fault left behind must not look like the next one's doing
        if (onLoading) this.forget(fileName);
        const again = failed === "" ? asked : { [failed]: asked[failed]! };
        if ((await this.failing(undefined, file, again, Infinity)) === undefined) return "noticed";
        this.forget(fileName);
        if ((await this.failing(undefined, file, again, Infinity)) === undefined) return "noticed";
        return `not noticed, it left ${file} failing`;
      }
      return "not noticed";
    } finally {
      if (onLoading) this.forget(fileName);
    }
  }

  /** @returns the test of a file that fails with a fault on, "" where its loading does, nothing where none does */
  private async failing(
    id: string | undefined,
    file: string,
    asked: Record<string, number>,
    until: number,
  ): Promise<string | undefined> {
    const runner = new QuietRunner(this.config);
    const { moduleRunner, _otel } = this as unknown as Record<string, unknown>;
    Object.assign(runner, { moduleRunner, _otel, asked, until });
    this.forget(file);
    Object.assign(switches(), { activeMutant: id, hitCount: 0, hitLimit: hitsOnLoading });
    try {
      const [ran] = await startTests([resolve(file)], runner);
      return runner.failed ?? (ran!.result?.state === "fail" ? "" : undefined);
    } finally {
      Object.assign(switches(), { activeMutant: undefined, hitCount: undefined });
    }
  }
}

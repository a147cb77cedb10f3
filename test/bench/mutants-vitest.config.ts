import { mergeConfig } from "vitest/config";
import whole from "../vitest.config.ts";

/** The tests of the rooms named in GRAMWRIGHT_TEST_ROOMS in one worker, under the runner of the bench part `mutants`. */
const config = mergeConfig(whole, {
  test: {
    runner: "test/bench/mutants-runner.ts",
    maxWorkers: 1,
    testTimeout: 0,
    reporters: ["dot"],
  },
});
config.test.include = (process.env.GRAMWRIGHT_TEST_ROOMS ?? "")
  .split(",")
  .flatMap((room) => [`test/${room}/**/*.test.ts`, `test/${room}.test.ts`]);
config.test.globalSetup = [];
export default config;

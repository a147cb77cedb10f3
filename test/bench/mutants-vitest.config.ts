import { mergeConfig } from "vitest/config";
import whole from "../vitest.config.ts";

const rooms = (process.env.GRAMWRIGHT_TEST_ROOMS ?? "").split(",");

/** The tests of the rooms named in GRAMWRIGHT_TEST_ROOMS, for the bench part `mutants`. */
const config = mergeConfig(whole, {});
config.test.include = rooms.map((room) => `test/${room}/**/*.test.ts`);
config.test.globalSetup = [];
export default config;
